#include <sectio/interval/limits.hpp>
#include <sectio/score/legend.hpp>
#include <sectio/score/note_classes.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio::score {

namespace {

/// The notes of one chord, or one note: places in Score::notes.
struct Group {
    std::size_t first, last;
};

class Annotator {
  public:
    Annotator(const Score& score, const NoteTuning& tuning, const AnnotationOptions& options)
        : score_(score), options_(options) {
        out_.reading = choose_reading(score, options.reading);
        out_.tuning = tuning.text();
        out_.insertions = Insertions(score.encoding);
        classes_.emplace(score, out_.reading, options.pitch);
        for (const Note& note : score.notes)
            class_of_.push_back(classes_->of(note));
        classes_->tune(tuning, options.places);
    }

    Annotation run() {
        out_.legend = legend_text(out_, options_);
        if (const auto at = legend_in_header(score_))
            out_.insertions.add(*at, legend_credit(score_, out_.legend));
        else if (score_.page.first_music_at)
            out_.insertions.add(*score_.page.first_music_at, legend_direction(out_.legend));
        for (std::size_t i = 0; i < score_.notes.size();) {
            const Group group = group_from(i);
            annotate(group);
            i = group.last;
        }
        finish();
        return std::move(out_);
    }

  private:
    Group group_from(std::size_t first) const {
        const Note& head = score_.notes[first];
        std::size_t last = first + 1;
        while (last < score_.notes.size() && score_.notes[last].is(Note::chord)
               && score_.notes[last].head_at == head.head_at && score_.notes[last].part == head.part)
            ++last;
        return {first, last};
    }

    /// Why no text can stand at this note; empty where one can.
    static const char* obstacle(const Note& note) {
        if (note.is(Note::in_entity))
            return "stands in an entity";
        return note.is(Note::hidden) ? "not printed" : nullptr;
    }

    void annotate(const Group& group) {
        shown_.clear();
        for (std::size_t i = group.first; i < group.last; ++i) {
            if (const char* why = obstacle(score_.notes[i]))
                ++skipped_[why];
            else
                count(i);
        }
        if (shown_.empty())
            return;
        if (shown_.size() > 1)
            std::stable_sort(shown_.begin(), shown_.end(), [&](std::size_t a, std::size_t b) {
                return height((*classes_)[class_of_[b]].nominal) < height((*classes_)[class_of_[a]].nominal);
            });
        lines_.clear();
        for (const std::size_t i : shown_)
            lines_.push_back(&(*classes_)[class_of_[i]].label);
        const Note& note = score_.notes[group.first];
        if (!options_.changes || changed(note))
            put(note, score_.notes[shown_.front() == group.first ? group.first : first_shown(group)]);
    }

    std::size_t first_shown(const Group& group) const {
        return std::max(group.first, *std::min_element(shown_.begin(), shown_.end()));
    }

    void count(std::size_t index) {
        NoteClass& found = (*classes_)[class_of_[index]];
        shown_.push_back(index);
        if (std::holds_alternative<Interval>(found.outcome)) {
            ++found.count;
            ++out_.annotated;
            return;
        }
        const Note& note = score_.notes[index];
        out_.unmatched.push_back({note.part, note.measure,
                                  listed(out_.names, names_, text_with_octave(found.nominal, NameStyle::ascii)),
                                  listed(out_.reasons, reasons_, std::get<Lacking>(found.outcome).reason)});
    }

    static std::uint32_t listed(std::vector<std::string>& list, std::map<std::string, std::uint32_t>& places,
                                const std::string& text) {
        const auto [place, added] = places.try_emplace(text, static_cast<std::uint32_t>(list.size()));
        if (added)
            list.push_back(text);
        return place->second;
    }

    /// Whether the lines differ from the last ones of the voice.
    bool changed(const Note& note) {
        std::string now;
        for (const std::string* line : lines_)
            now += *line + "\n";
        std::string& last = last_text_[std::uint64_t{note.part} << 32 | std::uint64_t{note.staff} << 16 | note.voice];
        if (last == now)
            return false;
        last = std::move(now);
        return true;
    }

    /// `head` is the first note of the chord, `bearer` the first that is printed.
    void put(const Note& head, const Note& bearer) {
        if (options_.kind == TextKind::words)
            out_.insertions.add(head.head_at, words(head));
        else
            out_.insertions.add(bearer.lyric_at, lyrics());
        ++out_.texts;
    }

    std::string words(const Note& note) const {
        const bool below = options_.placement == Placement::below;
        std::string lines;
        for (const std::string* line : lines_)
            lines += (lines.empty() ? "" : "\n") + escaped(*line);
        std::string text = fmt::format("<direction placement=\"{}\"><direction-type><words font-size=\"7\">{}"
                                       "</words></direction-type>",
                                       below ? "below" : "above", lines);
        if (!score_.voices[note.voice].empty())
            text += fmt::format("<voice>{}</voice>", escaped(score_.voices[note.voice]));
        if (note.staff > 0)
            text += fmt::format("<staff>{}</staff>", note.staff);
        return text + "</direction>";
    }

    std::string lyrics() const {
        const std::string_view placement =
            options_.placement == Placement::above ? " placement=\"above\"" : "";
        std::string text;
        std::uint32_t number = score_.lyric_lines;
        for (const std::string* line : lines_)
            text += fmt::format("<lyric number=\"{}\" name=\"cents\"{}><syllabic>single</syllabic><text "
                                "font-size=\"7\">{}</text></lyric>",
                                ++number, placement, escaped(*line));
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
        out_.measures = score_.measures;
        out_.unknown_signs = score_.unknown_signs;
        for (const Part& part : score_.parts)
            out_.parts.push_back(part.name.empty() ? part.id : part.name);
        out_.table = table_of(classes_->all());
    }

    const Score& score_;
    const AnnotationOptions& options_;
    Annotation out_;
    std::optional<NoteClasses> classes_;
    std::deque<std::uint32_t> class_of_;
    std::vector<std::size_t> shown_;
    std::vector<const std::string*> lines_;
    std::map<std::string_view, std::size_t> skipped_;
    std::map<std::string, std::uint32_t> names_, reasons_;
    std::unordered_map<std::uint64_t, std::string> last_text_;
};

/// Digits that a text above a note has room for.
constexpr int most_places = 6;

} // namespace

std::string deviation_text(const Interval& deviation, int places) {
    std::string digits = deviation.cents(places);
    if (digits.find_first_not_of("-0.") == std::string::npos)
        return digits.substr(digits.starts_with('-') ? 1 : 0);
    return digits.starts_with('-') ? "−" + digits.substr(1) : "+" + digits;
}

Annotation annotate(const Score& score, const NoteTuning& tuning, const AnnotationOptions& options) {
    if (options.places < 0 || options.places > most_places)
        throw error(Message::digits_out_of_range, std::to_string(options.places), {}, most_places);
    return Annotator(score, tuning, options).run();
}

std::string annotated_file(const Document& document, const Annotation& annotation) {
    std::string score = annotation.insertions.applied(document.bytes);
    return document.archive ? repack(*document.archive, score, document.source) : score;
}

} // namespace sectio::score
