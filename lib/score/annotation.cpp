#include <sectio/base/file.hpp>
#include <sectio/base/file_ending.hpp>
#include <sectio/base/markup.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/score/legend.hpp>
#include <sectio/score/messages.hpp>
#include <sectio/score/note_classes.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

namespace sectio::score {

namespace {

/// The notes of one chord, or one note: places in Score::notes from `first` to before `last`.
struct Group {
    std::size_t first, last;
    std::size_t rank; ///< of its voice among those of its staff in this measure; 0 is the upper
};

/// Ranks the voices of a staff by their first appearance in each measure, which in two-voice music
/// is from the upper to the lower.
class VoiceRanks {
  public:
    std::size_t of(const Note& note) {
        if (note.measure != measure_ || note.part != part_) {
            ranks_.clear();
            voices_.clear();
        }
        measure_ = note.measure;
        part_ = note.part;
        const auto [rank, added] = ranks_.try_emplace({note.staff, note.voice});
        if (added)
            rank->second = voices_[note.staff]++;
        return rank->second;
    }

  private:
    std::uint32_t measure_ = 0;
    std::uint16_t part_ = 0;
    std::map<std::pair<std::uint16_t, std::uint16_t>, std::size_t> ranks_; ///< by staff and voice
    std::map<std::uint16_t, std::size_t> voices_; ///< how many a staff has so far
};

class Annotator {
  public:
    Annotator(const Score& score, const NoteTuning& tuning, const AnnotationOptions& options)
        : score_(score), options_(options) {
        out_.reading = choose_reading(score, options.reading);
        out_.tuning = tuning.text();
        out_.cure = tuning.cure();
        out_.insertions = Insertions(score.encoding);
        classes_.emplace(score, out_.reading, options.pitch);
        for (const Note& note : score.notes)
            class_of_.push_back(classes_->of(note));
        classes_->tune(tuning, options.places);
    }

    Annotation run() {
        put_legend();
        for (std::size_t i = 0; i < score_.notes.size();) {
            const Group group = group_from(i);
            annotate(group);
            i = group.last;
        }
        finish();
        return std::move(out_);
    }

  private:
    void put_legend() {
        out_.legend = legend_text(out_, options_, classes_->all());
        if (const auto at = legend_in_header(score_))
            out_.insertions.add(*at, legend_credits(score_, out_.legend, options_.points));
        else if (score_.page.first_music_at)
            out_.insertions.add(*score_.page.first_music_at,
                                legend_direction(out_.legend, options_.points));
    }

    Group group_from(std::size_t first) {
        auto note = score_.notes.begin() + static_cast<std::ptrdiff_t>(first);
        const Note& head = *note;
        std::size_t last = first + 1;
        while (++note != score_.notes.end() && note->is(Note::chord)
               && note->head_at == head.head_at && note->part == head.part)
            ++last;
        return {first, last, ranks_.of(head)};
    }

    /// Why no text can stand at this note; null where one can.
    static const char* obstacle(const Note& note) {
        if (note.is(Note::in_entity))
            return "stands in an entity";
        return note.is(Note::hidden) ? "not printed" : nullptr;
    }

    void annotate(const Group& group) {
        shown_.clear();
        for (std::size_t i = group.first; i < group.last; ++i) {
            const Note& note = score_.notes[i];
            if (const char* why = obstacle(note))
                ++skipped_[why];
            else
                count(note, i);
        }
        if (shown_.empty())
            return;
        const Note& bearer = score_.notes[shown_.front()];
        if (shown_.size() > 1)
            std::stable_sort(shown_.begin(), shown_.end(), [&](std::size_t a, std::size_t b) {
                return height(class_at(b).nominal) < height(class_at(a).nominal);
            });
        if (options_.changes && !changed(bearer))
            return;
        const bool words = options_.kind == TextKind::words;
        out_.insertions.add(words ? bearer.head_at : bearer.lyric_at, text_for(bearer, group.rank));
        ++out_.texts;
    }

    NoteClass& class_at(std::size_t note) { return (*classes_)[class_of_[note]]; }

    void count(const Note& note, std::size_t index) {
        NoteClass& found = class_at(index);
        shown_.push_back(index);
        if (std::holds_alternative<Interval>(found.outcome)) {
            found.add_part(note.part);
            ++found.count;
            ++out_.annotated;
            return;
        }
        const std::string name = text_with_octave(found.nominal, NameStyle::ascii);
        const std::string& reason = std::get<Lacking>(found.outcome).reason;
        out_.unmatched.push_back({note.part, note.measure, listed(out_.names.pitches, names_, name),
                                  listed(out_.names.reasons, reasons_, reason)});
    }

    static std::uint32_t listed(std::vector<std::string>& list,
                                std::map<std::string, std::uint32_t>& places,
                                const std::string& text) {
        const auto [place, added] =
            places.try_emplace(text, static_cast<std::uint32_t>(list.size()));
        if (added)
            list.push_back(text);
        return place->second;
    }

    /// Whether the lines differ from the last ones of the voice.
    bool changed(const Note& note) {
        std::string now;
        for (const std::size_t i : shown_)
            now += class_at(i).label + "\n";
        std::string& last = last_lines_[{note.part, note.staff, note.voice}];
        if (last == now)
            return false;
        last = std::move(now);
        return true;
    }

    /// Most texts are of one note and come again and again; those are made once.
    std::uint32_t text_for(const Note& note, std::size_t rank) {
        if (shown_.size() > 1)
            return out_.insertions.text(made_text(note, rank));
        const std::array<std::size_t, 4> key{class_of_[shown_.front()], note.voice, note.staff,
                                             rank};
        const auto [place, added] = texts_.try_emplace(key);
        if (added)
            place->second = out_.insertions.text(made_text(note, rank));
        return place->second;
    }

    std::string made_text(const Note& note, std::size_t rank) {
        std::vector<std::string> lines;
        for (const std::size_t i : shown_)
            lines.push_back(escaped(class_at(i).label));
        return options_.kind == TextKind::words ? words(note, lines, rank) : lyrics(lines, rank);
    }

    /// Words of a lower voice stand below, away from the upper one's.
    std::string words(const Note& note, const std::vector<std::string>& lines,
                      std::size_t rank) const {
        const Placement usual = rank == 0 ? Placement::above : Placement::below;
        const bool below = options_.placement.value_or(usual) == Placement::below;
        std::string text =
            fmt::format("<direction placement=\"{}\"><direction-type><words font-size=\"{}\" "
                        "font-style=\"normal\">{}</words></direction-type>",
                        below ? "below" : "above", options_.points, fmt::join(lines, "\n"));
        if (!score_.voices[note.voice].empty())
            text += fmt::format("<voice>{}</voice>", escaped(score_.voices[note.voice]));
        if (note.staff > 0)
            text += fmt::format("<staff>{}</staff>", note.staff);
        return text + "</direction>";
    }

    /// Each voice has lines of its own, since two texts on one line would overprint.
    std::string lyrics(const std::vector<std::string>& lines, std::size_t rank) const {
        const std::string_view placement =
            options_.placement == Placement::above ? " placement=\"above\"" : "";
        std::string text;
        std::size_t number = score_.lyric_lines + rank * score_.largest_chord;
        for (const std::string& line : lines)
            text += fmt::format("<lyric number=\"{}\" name=\"cents\"{}><syllabic>single</syllabic>"
                                "<text font-size=\"{}\">{}</text></lyric>",
                                ++number, placement, options_.points, line);
        return text;
    }

    void finish() {
        for (const auto& [why, count] : skipped_)
            out_.skipped_because[std::string(why)] = count;
        if (score_.without_pitch.unpitched > 0)
            out_.skipped_because["without pitch"] = score_.without_pitch.unpitched;
        for (const auto& [why, count] : out_.skipped_because)
            out_.skipped += count;
        out_.notes = out_.annotated + out_.skipped + out_.unmatched.size();
        out_.rests = score_.without_pitch.rests;
        out_.title = score_.page.work.empty() ? score_.page.movement : score_.page.work;
        out_.names.measures = score_.measures;
        out_.unknown_signs = score_.unknown_signs;
        for (const Part& part : score_.parts)
            out_.names.parts.push_back(part.name.empty() ? part.id : part.name);
        std::set<std::uint16_t> with_notes;
        for (const NoteClass& found : classes_->all())
            with_notes.insert(found.parts.begin(), found.parts.end());
        for (const std::uint16_t part : with_notes)
            out_.parts.push_back(out_.names.parts[part]);
        out_.table = table_of(classes_->all(), out_.names.parts);
    }

    const Score& score_;
    const AnnotationOptions& options_;
    Annotation out_;
    std::optional<NoteClasses> classes_;
    std::deque<std::uint32_t> class_of_;
    VoiceRanks ranks_;
    std::vector<std::size_t> shown_; ///< notes of the present group that have a text
    std::map<std::array<std::size_t, 4>, std::uint32_t> texts_;
    std::map<std::string_view, std::size_t> skipped_;
    std::map<std::string, std::uint32_t> names_, reasons_;
    std::map<std::array<std::uint16_t, 3>, std::string> last_lines_;
};

/// Digits that a text above a note has room for.
constexpr int most_places = 6;
constexpr int smallest_points = 4, largest_points = 40;

} // namespace

std::string deviation_text(const Interval& deviation, int places) {
    std::string digits = deviation.cents(places);
    if (digits.find_first_not_of("-0.") == std::string::npos)
        return digits.substr(digits.starts_with('-') ? 1 : 0);
    return digits.starts_with('-') ? "−" + digits.substr(1) : "+" + digits;
}

Annotation annotate(const Score& score, const NoteTuning& tuning,
                    const AnnotationOptions& options) {
    if (options.places < 0 || options.places > most_places)
        throw error(message::digits_out_of_range, std::to_string(options.places), {}, most_places);
    if (options.points < smallest_points || options.points > largest_points)
        throw error(message::score_text_size, std::to_string(options.points), {});
    return Annotator(score, tuning, options).run();
}

void write_annotated(const Document& document, const Annotation& annotation,
                     const std::filesystem::path& file) {
    const std::string ending = file_ending(file);
    const bool plain = ending == ".musicxml" || ending == ".xml";
    if (ending == ".mxl" && !document.archive)
        return write_whole(file, pack(annotation.insertions.applied(document.bytes)));
    if (document.archive && !plain)
        return write_whole(file, annotated_file(document, annotation));
    const auto produce = [&](const Sink& sink) {
        annotation.insertions.write(document.bytes, sink);
    };
    write_whole(file, produce);
}

std::string annotated(std::string musicxml, const NoteTuning& tuning,
                      const AnnotationOptions& options) {
    const Document document = document_of(std::move(musicxml), "score");
    return annotated_file(document, annotate(read_score(document), tuning, options));
}

std::string annotated(std::string musicxml, const TunedScale& scale,
                      const AnnotationOptions& options) {
    return annotated(std::move(musicxml), *tuning_by_scale(scale), options);
}

std::string annotated_file(const Document& document, const Annotation& annotation) {
    std::string score = annotation.insertions.applied(document.bytes);
    return document.archive ? repack(*document.archive, score, document.source) : score;
}

} // namespace sectio::score
