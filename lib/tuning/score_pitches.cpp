#include <sectio/tuning/score_pitches.hpp>

namespace sectio::tuning {

ScorePitches::ScorePitches(const score::Score& score, const score::Reading& reading,
                           const score::NoteTuning& tuning, const Pitch& a4)
    : classes_(score, reading, score::PitchKind::sounding), a4_(a4) {
    for (const score::Note& note : score.notes) {
        class_of_.push_back(classes_.of(note));
        if (class_of_.back() == moved_.size())
            moved_.push_back(moved_keys(score.transpositions[note.transposition]));
    }
    classes_.tune(tuning, 0);
}

std::vector<Pitch> ScorePitches::all() const {
    std::vector<Pitch> pitches;
    for (std::size_t i = 0; i < moved_.size(); ++i)
        pitches.push_back(pitch(classes_.all()[i], moved_[i]));
    return pitches;
}

Pitch ScorePitches::pitch(const score::NoteClass& found, const Rational& moved) const {
    const Interval semitone = Interval::from_steps(1, 12);
    constexpr int a4_key = 69;
    if (const auto* deviation = std::get_if<Interval>(&found.outcome))
        return pitch_of_key(base_key(found.effective), a4_) + *deviation
               - semitone * found.keys_off;
    const bool read = std::holds_alternative<score::WrittenPitch>(found.written);
    const Rational height =
        read ? score::height(found.effective) : score::height(found.nominal) + moved;
    return a4_ + semitone * (height - a4_key);
}

} // namespace sectio::tuning
