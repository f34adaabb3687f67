#pragma once
/// @file
/// Private to lib/identify: the different pitches of a melody, as intervals and as doubles.

#include <sectio/identify/fit.hpp>
#include <sectio/scale/melody.hpp>

#include <optional>
#include <vector>

namespace sectio {

struct PitchSet {
    Interval reference;              ///< of the melody: what "the first pitch" is
    std::vector<Interval> intervals; ///< above the reference, rising, each once
    std::vector<PitchOfSet> pitches; ///< the same as doubles, with weights
};

/// The first pitch is the unison where the melody has one, else its first note. Equal pitches are
/// one, their weights added; equality is exact. `uncertainty` is the half width of pitches without
/// their own. A half width is taken for that of a rectangular distribution, whose standard
/// deviation is its half width divided by the square root of 3 (JCGM 100:2008, 4.3.7).
/// @throws Error no_pitches, one_pitch
PitchSet pitch_set(const Melody& melody, const std::optional<Interval>& uncertainty);

} // namespace sectio
