#pragma once
/// @file
/// Private to lib/tuning: the pitches of a score's notes, each kind of note once.

#include <sectio/score/note_classes.hpp>

#include <vector>

namespace sectio::tuning {

/// What each class of notes sounds.
class ScorePitches {
  public:
    ScorePitches(const score::Score& score, const score::Reading& reading,
                 const score::NoteTuning& tuning, const Pitch& a4);

    std::uint32_t class_of(std::size_t note) const { return class_of_[note]; }
    const score::NoteClass& of(std::uint32_t index) const { return classes_.all()[index]; }

    /// One a class. A note that the tuning lacks sounds as 12 equal steps have it.
    std::vector<Pitch> all() const;

  private:
    Pitch pitch(const score::NoteClass& found, const Rational& moved) const;

    score::NoteClasses classes_;
    Pitch a4_;
    std::vector<std::uint32_t> class_of_;
    std::vector<Rational> moved_; ///< semitones of each class's transposition
};

} // namespace sectio::tuning
