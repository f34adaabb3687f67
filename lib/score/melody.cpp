#include <sectio/score/melody.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace sectio::score {

namespace {

/// One note of the line, with what decides which of several is kept.
struct LineNote {
    QuarterNotes onset, duration;
    Interval pitch;
    bool tied = false, ends_phrase = false;
    std::uint32_t measure = 0; ///< in Score::measures

    QuarterNotes end() const { return onset + duration; }
};

bool sounds(const Note& note) {
    return !note.is(Note::grace) && !note.is(Note::cue) && !note.is(Note::hidden)
           && note.duration.num() > 0;
}

/// The part's notes that could be read; the others are counted in `out`.
std::vector<LineNote> notes_of_first_part(const Score& score, ScoreMelody& out) {
    std::vector<LineNote> notes;
    std::optional<std::uint16_t> part;
    for (const Note& note : score.notes) {
        if (!sounds(note) || note.part != part.value_or(note.part))
            continue;
        part = note.part;
        const auto alteration = alteration_of(score, note, out.reading);
        if (std::holds_alternative<Unreadable>(alteration)) {
            ++out.left_out;
            continue;
        }
        const WrittenPitch written{score.spellings[note.spelling].step,
                                   std::get<Alteration>(alteration), note.octave};
        notes.push_back({note.onset, note.duration, above_c4(written), note.is(Note::tie_stop),
                         note.is(Note::phrase_end), note.measure});
    }
    return notes;
}

/// Of notes that sound together the highest; one that goes on below a higher one ends there.
void keep_highest(std::vector<LineNote>& notes) {
    std::stable_sort(notes.begin(), notes.end(), [](const LineNote& a, const LineNote& b) {
        return a.onset == b.onset ? a.pitch > b.pitch : a.onset < b.onset;
    });
    std::vector<LineNote> line;
    for (LineNote& note : notes) {
        const bool together = !line.empty() && note.onset < line.back().end();
        if (together && !(line.back().pitch < note.pitch))
            continue;
        if (together)
            line.back().duration = note.onset - line.back().onset;
        line.push_back(std::move(note));
    }
    notes = std::move(line);
}

void join_ties(std::vector<LineNote>& notes) {
    std::vector<LineNote> joined;
    for (const LineNote& note : notes) {
        if (note.tied && !joined.empty() && joined.back().pitch == note.pitch
            && joined.back().end() == note.onset) {
            joined.back().duration = joined.back().duration + note.duration;
            joined.back().ends_phrase = note.ends_phrase;
        } else {
            joined.push_back(note);
        }
    }
    notes = std::move(joined);
}

/// What the line leaves out of the score, and how it sounds where that is not as it is written.
std::vector<std::string> remarks_on(const Score& score, const ScoreMelody& line,
                                    std::size_t covered) {
    std::set<std::uint16_t> parts;
    for (const Note& note : score.notes)
        if (sounds(note))
            parts.insert(note.part);
    std::vector<std::string> remarks;
    const auto first = std::find_if(score.notes.begin(), score.notes.end(),
                                    [](const Note& n) { return sounds(n); });
    if (first == score.notes.end())
        return remarks;
    const Part& part = score.parts[first->part];
    if (parts.size() > 1)
        remarks.push_back(fmt::format("Of {} parts the first is read: {}.", parts.size(),
                                      part.name.empty() ? part.id : part.name));
    if (covered > 0)
        remarks.push_back(fmt::format(
            "Of notes that sound together the highest is taken; left out below it: {}.", covered));
    if (line.left_out > 0)
        remarks.push_back(
            fmt::format("Left out, since the score does not say their pitch: {}.", line.left_out));
    const Rational moved = moved_keys(score.transpositions[first->transposition]);
    if (!is_whole(moved / 12))
        remarks.push_back(
            fmt::format("Notes are named as they are written; the part sounds {} semitones {}.",
                        exact_decimal(boost::abs(moved)), moved < 0 ? "lower" : "higher"));
    return remarks;
}

} // namespace

Interval above_c4(const WrittenPitch& pitch) {
    const Rational octaves(pitch.octave - 4);
    const bool keys = pitch.alteration.unit == AlterationUnit::semitone;
    const int letter = keys ? keys_of_letter(pitch.step) : commas_of_letter(pitch.step);
    return Interval::octave() * (octaves + (letter + pitch.alteration.amount) / (keys ? 12 : 53));
}

ScoreMelody melody_of(const Score& score, const ReadingChoice& choice) {
    ScoreMelody out;
    out.reading = choose_reading(score, choice);
    std::vector<LineNote> notes = notes_of_first_part(score, out);
    const std::size_t all = notes.size();
    keep_highest(notes);
    out.remarks = remarks_on(score, out, all - notes.size());
    join_ties(notes);
    Melody& melody = out.melody;
    melody.name = score.page.work.empty() ? score.page.movement : score.page.work;
    melody.zero = MelodyZero::written;
    melody.in_time = true;
    for (std::size_t i = 0; i < notes.size(); ++i) {
        const bool last = i + 1 == notes.size();
        const bool rest = !last && notes[i].end() < notes[i + 1].onset;
        melody.notes.push_back(
            {notes[i].pitch, Rational(notes[i].duration.num(), notes[i].duration.den()),
             notes[i].ends_phrase || rest || last, std::nullopt, score.measures[notes[i].measure]});
    }
    return out;
}

} // namespace sectio::score
