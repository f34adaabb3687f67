#pragma once
/// @file
/// Private to lib/scale: pitches of several periods as degrees of one.

#include <sectio/scale/pitch_list.hpp>

#include <string>
#include <vector>

namespace sectio {

/// A pitch above the tonic, brought into one period where the list has one.
Interval above_tonic(const ListedPitch& pitch, const ListedPitch& tonic, const PitchList& list);

/// Of pitches that are one degree by PitchList::same_within one each. What lies between those that
/// differ by more than their half widths counts for the half width of the one that stays, and goes
/// into `remarks`.
/// Precondition: the list has a period and same_within. @throws Error too_many_degrees
std::vector<ListedPitch> one_a_degree(const PitchList& list, const ListedPitch& tonic,
                                      std::vector<std::string>& remarks);

} // namespace sectio
