#pragma once
/// @file
/// Private to lib/measure: what measured values say together.

#include <numbers>
#include <vector>

namespace sectio::measure {

/// So many standard deviations hold a normal value 95 times of 100. Source: NIST/SEMATECH
/// e-Handbook of Statistical Methods, 1.3.6.7.1 (from memory).
inline constexpr double normal_95 = 1.959964;

/// Cents of a ratio of e: a small part of a frequency is so many times as many cents.
inline constexpr double cents_per_e = 1200 / std::numbers::ln2;

/// How far a frequency lies above another, both in Hz.
double cents_above(double hz, double other_hz);

/// The upper one of an even number. Precondition: there is a value.
double median(std::vector<double> values);

/// Median distance from `centre`, scaled to a normal distribution's standard deviation: half of its
/// values lie within 1/1.4826 of that.
double robust_deviation(std::vector<double> values, double centre);

/// Half width, 95 times of 100, of the pitch about which a voice moves for `seconds` with this
/// standard deviation, both in cents. Deviations within a quarter of a second are taken to hang
/// together, which is our choice.
double moving_half_width(double deviation, double seconds);

/// The factor from a standard deviation to the half width that holds 95 of 100 (Student's t; 1.96
/// where `freedom` is 0, for a deviation that is known beforehand).
double student_95(int freedom);
/// The same for 999 of 1000; infinite where `freedom` is 0.
double student_999(int freedom);

/// Variance of the sum of values that hang together over up to a quarter of them: W. K. Newey,
/// K. D. West, "A simple, positive semi-definite, heteroskedasticity and autocorrelation consistent
/// covariance matrix", Econometrica 55, 1987 (from memory). What beats with a partial draws its
/// phase to and fro for longer than noise does.
double long_run_variance(const std::vector<double>& scores);

/// What χ² exceeds by chance in one of twenty cases.
double chance_chi2(int freedom);

/// The values' lower quartile; 0 of fewer than three.
double lower_quartile(std::vector<double> values);

} // namespace sectio::measure
