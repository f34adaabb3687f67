#pragma once
/// @file
/// Sizes as doubles, for statistics.

#include <sectio/interval/interval.hpp>

namespace sectio {

/// Cents as a double. Good to some 2^-49 of itself: far below any uncertainty of measurement, and
/// never used where sizes are compared for equality.
inline double cents_of(const Interval& interval) {
    return interval.estimate().value * 1200;
}

} // namespace sectio
