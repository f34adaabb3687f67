#pragma once
/// @file
/// Weighted pitches, with or without their progression: what a melody, a score or a list of counts
/// says of its scale. Scores and measurements make this value; identification reads it.

#include <sectio/base/number.hpp>
#include <sectio/interval/interval.hpp>
#include <sectio/interval/pitch.hpp>

#include <optional>
#include <string>
#include <vector>

namespace sectio {

/// One pitch and how much of it there is: one note of a melody, or one row of a count.
struct WeightedPitch {
    Interval interval;        ///< above Melody::zero; may be negative
    Rational weight{1};       ///< duration (quarter notes or any one unit) or count; above zero
    bool ends_phrase = false; ///< a rest, a fermata, a breath mark or a final bar line follows
    std::optional<Interval> uncertainty; ///< half width of a measured pitch, as an interval up
    std::string bar{};                   ///< of a score: the number of its measure as printed
};

/// What the intervals of a melody are counted from.
enum class MelodyZero {
    free,    ///< an arbitrary pitch: only the distances between the notes mean anything
    written, ///< the written C4 of staff notation: names of notes mean something
};

/// Notes in the order of time where `in_time`; else a bag of weighted pitches.
///
/// For a written melody `interval` is what the notation means, from the written C4 up and without
/// transposition of the instrument: D4 in Turkish notation is 9of53, B4 with the sign of one comma
/// flat 48of53, A4 40of53. Grace notes and rests are left out; tied notes are one note.
struct Melody {
    std::string name;
    MelodyZero zero = MelodyZero::free;
    std::optional<Pitch> sounding_zero; ///< the pitch of interval 1/1, where the frequency is known
    Pitch a4 = Pitch::concert_a();      ///< the reference pitch of what was read
    bool in_time = false;
    std::vector<WeightedPitch> notes;
};

} // namespace sectio
