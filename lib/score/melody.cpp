#include <sectio/score/melody.hpp>

#include <algorithm>

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

void keep_highest(std::vector<LineNote>& notes) {
    std::stable_sort(notes.begin(), notes.end(), [](const LineNote& a, const LineNote& b) {
        return a.onset == b.onset ? a.pitch > b.pitch : a.onset < b.onset;
    });
    const auto same_onset = [](const LineNote& a, const LineNote& b) { return a.onset == b.onset; };
    notes.erase(std::unique(notes.begin(), notes.end(), same_onset), notes.end());
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
    keep_highest(notes);
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
