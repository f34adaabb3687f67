#pragma once
/// @file
/// Private to lib/identify: candidates that are one answer, and where an answer does not fit.

#include <sectio/identify/fit.hpp>
#include <sectio/identify/identify.hpp>
#include <sectio/identify/pitch_set.hpp>

#include <string>
#include <vector>

namespace sectio {

/// Placements of equal pitches differ by the last digits of doubles only; so many cents are none.
inline constexpr double same_place = 1;

inline const Scale& scale_of(const Candidate& candidate) {
    return *candidate.scale->entry.scale();
}

/// From how many of its degrees a scale has the same pitches as from the first: 2 of 4 for steps
/// that come twice in the period, 1 for most scales.
inline std::size_t equal_rotations(const LibraryScale& scale) {
    return scale.degrees.size() / scale.repeats_after;
}

/// Makes one candidate of those whose scales have exactly the same pitches from the same tonic, or
/// from another degree that the scale repeats from.
void join_namesakes(std::vector<Candidate>& candidates);

/// "Hüseynî or one of five others of the same pitches"; up to four are named, which are equals,
/// with their traditions where these differ.
std::string all_names_of(const Candidate& candidate);

/// Each candidate followed by its namesakes as candidates of their own.
std::vector<Candidate> with_namesakes(const std::vector<Candidate>& candidates);

/// Pitches that lie on no degree of the candidate, or farther off than the narrowest spread and
/// their own uncertainty account for, and degrees that no pitch lies on.
std::vector<DegreeDifference> differences(const Candidate& candidate, const PitchSet& set,
                                          const std::vector<double>& spreads);

} // namespace sectio
