#pragma once
/// @file
/// Private to lib/identify: what exact intervals a measured pitch may stand for.

#include <sectio/identify/identify.hpp>
#include <sectio/identify/pitch_set.hpp>

namespace sectio {

/// For each pitch the likeliest of the simple ratios and the steps of 12 and 53 within 50 cents.
std::vector<IdentifiedPitch> pitch_readings(const PitchSet& set,
                                            const std::vector<double>& spreads);

} // namespace sectio
