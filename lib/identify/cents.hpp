#pragma once
/// @file
/// Sizes and weights as doubles, for statistics.

#include <sectio/interval/interval.hpp>
#include <sectio/scale/melody.hpp>

namespace sectio {

/// Cents as a double. Good to some 2^-49 of itself: far below any uncertainty of measurement, and
/// never used where sizes are compared for equality.
inline double cents_of(const Interval& interval) {
    return interval.estimate().value * 1200;
}

/// A known tonic is looked for this far about its place, in cents: half a semitone.
inline constexpr double tonic_window = 50;

inline double weight_of(const WeightedPitch& note) {
    return boost::rational_cast<double>(note.weight);
}

} // namespace sectio
