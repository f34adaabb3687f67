#pragma once
/// @file
/// Private to lib/measure: measured figures, which are doubles, as the exact values that pages and
/// scales are made of. They are taken at 10^-9 Hz and 10^-6 cents, far below what any recording
/// supports.

#include <sectio/interval/interval.hpp>
#include <sectio/interval/pitch.hpp>

namespace sectio::measure {

constexpr int second_digits = 3; ///< of times

Pitch pitch_of(double hz);
Interval interval_of(double cents);
/// Rounded up: a half width must hold.
Interval half_width_of(double cents);

} // namespace sectio::measure
