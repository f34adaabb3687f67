#include <sectio/score/profile.hpp>

#include <algorithm>
#include <map>

namespace sectio::score {

namespace {

bool sounds(const Note& note) {
    return !note.is(Note::grace) && !note.is(Note::cue) && !note.is(Note::hidden);
}

class Profiler {
  public:
    Profiler(const Score& score, ScoreProfile& out) : score_(score), out_(out) {}

    void add(const Note& note) {
        const auto alteration = alteration_of(score_, note, out_.reading);
        if (std::holds_alternative<Unreadable>(alteration)) {
            ++out_.left_out;
            return;
        }
        const std::size_t pitch = place_of(
            {score_.spellings[note.spelling].step, std::get<Alteration>(alteration), note.octave});
        WeightedPitch& weighted = out_.pitches[pitch];
        weighted.duration = weighted.duration + note.duration;
        ++weighted.count;
        if (out_.tune.empty())
            part_ = note.part;
        if (note.part == part_)
            out_.tune.push_back({pitch, note.onset, note.duration});
    }

    /// Sorts the pitches, and keeps of notes that begin together the highest.
    void finish() {
        std::vector<std::size_t> order(out_.pitches.size()), new_place(order.size());
        for (std::size_t i = 0; i < order.size(); ++i)
            order[i] = i;
        std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
            return out_.pitches[a].above_c4 < out_.pitches[b].above_c4;
        });
        std::vector<WeightedPitch> sorted;
        for (std::size_t i = 0; i < order.size(); ++i) {
            new_place[order[i]] = i;
            sorted.push_back(out_.pitches[order[i]]);
        }
        out_.pitches = std::move(sorted);
        for (TuneNote& note : out_.tune)
            note.pitch = new_place[note.pitch];
        keep_highest();
    }

  private:
    std::size_t place_of(const WrittenPitch& pitch) {
        for (std::size_t i = 0; i < out_.pitches.size(); ++i)
            if (out_.pitches[i].written == pitch)
                return i;
        out_.pitches.push_back({pitch, above_c4(pitch), {}, 0});
        return out_.pitches.size() - 1;
    }

    void keep_highest() {
        auto& tune = out_.tune;
        std::stable_sort(tune.begin(), tune.end(), [](const TuneNote& a, const TuneNote& b) {
            return a.onset == b.onset ? a.pitch > b.pitch : a.onset < b.onset;
        });
        tune.erase(
            std::unique(tune.begin(), tune.end(),
                        [](const TuneNote& a, const TuneNote& b) { return a.onset == b.onset; }),
            tune.end());
    }

    const Score& score_;
    ScoreProfile& out_;
    std::size_t part_ = 0;
};

} // namespace

Interval above_c4(const WrittenPitch& pitch) {
    const int octaves = pitch.octave - 4;
    if (pitch.alteration.unit == AlterationUnit::semitone)
        return Interval::octave()
               * (octaves + (keys_of_letter(pitch.step) + pitch.alteration.amount) / 12);
    return Interval::octave()
           * (octaves + (commas_of_letter(pitch.step) + pitch.alteration.amount) / 53);
}

ScoreProfile profile_of(const Score& score, const ReadingChoice& choice) {
    ScoreProfile out;
    out.reading = choose_reading(score, choice);
    Profiler profiler(score, out);
    for (const Note& note : score.notes)
        if (sounds(note))
            profiler.add(note);
    profiler.finish();
    return out;
}

} // namespace sectio::score
