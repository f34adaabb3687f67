#pragma once
/// @file
/// Private to lib/measure: what measured values say together.

#include <vector>

namespace sectio::measure {

/// So many standard deviations hold a normal value 95 times of 100. Source: any table of the normal
/// distribution.
inline constexpr double normal_95 = 1.959964;

/// The upper one of an even number. Precondition: there is a value.
double median(std::vector<double> values);

/// Median distance from `centre`, scaled to a normal distribution's standard deviation.
double robust_deviation(std::vector<double> values, double centre);

/// Half width, 95 times of 100, of the pitch about which a voice moves for `seconds` with this
/// standard deviation, both in cents. Deviations within a quarter of a second hang together.
double moving_half_width(double deviation, double seconds);

/// The factor from a standard deviation to the half width that holds 95 of 100 (Student's t; 1.96
/// where `freedom` is 0, for a deviation that is known beforehand).
double student_95(int freedom);

/// What χ² exceeds by chance in one of twenty cases.
double chance_chi2(int freedom);

} // namespace sectio::measure
