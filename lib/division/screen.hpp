#pragma once
/// @file
/// Private to lib/division: the fast part of error tables. Errors of many divisions by doubles,
/// with a stated bound; whatever it leaves open is decided exactly.

#include <sectio/interval/interval.hpp>

#include <array>
#include <cstddef>
#include <vector>

namespace sectio {

/// A target by its distance from the nearest whole period, in periods: 0 … 1/2. Two targets that
/// add up to whole periods, or differ by them, have the same error in every division, since their
/// nearest steps do the same (half way between two steps either way is half a step off). They are
/// computed once.
struct TargetClass {
    Interval distance;
    double place;             ///< distance / period, correctly rounded or next to it
    double weight;            ///< how many targets it stands for
    std::size_t first_target; ///< the first of them
};

/// size(a) / size(b), correctly rounded or next to it, however small the sizes are.
/// @throws Error rounding_undecided beyond limits::precision_bits
double quotient_of_sizes(const Interval& a, const Interval& b);

/// The classes of some targets, in the order of their first targets.
std::vector<TargetClass> target_classes(const std::vector<Interval>& targets,
                                        const Interval& period);

/// Divisions that are screened in one go; their figures stay in the first-level cache.
inline constexpr std::size_t screen_block = 512;

/// Errors of divisions first, first + 1, … in steps of the division.
struct ScreenBlock {
    alignas(64) std::array<double, screen_block> worst;   ///< largest square of an error
    alignas(64) std::array<double, screen_block> squares; ///< weighted sum of squares
};

/// Bound, in periods, for the error of |r| / n, where r is the error in steps of division n as
/// screened. `place` is next to the true quotient, at most 1/2, so off by at most 2^-53; n times it
/// is off by n 2^-53 and rounded by at most 2^-53 of n/2; taking the nearest whole number away is
/// exact. Its square and the root of that round by 2^-53 of at most 1/2 each, and so does the
/// quotient r / n. Together below 2^-51. Where rounding picks the other neighbour near a half, |r|
/// differs by no more than the same. A processor that multiplies and adds in one step leaves some
/// of these roundings out.
inline constexpr double screen_error = 0x1p-51;

/// Fills `block` for `screen_block` divisions from `first` on. Precondition: below 2^50 steps.
void screen(const std::vector<TargetClass>& classes, double first, ScreenBlock& block);

/// Whether any of the values at n = first, first + 1, … is at most (slope n + offset)^2.
bool any_within(const std::array<double, screen_block>& values, double first, double slope,
                double offset);

/// The error in steps that the screen finds for one division and class.
inline double screened_error(double steps, double place) {
    // Adding and taking away 1.5 * 2^52 rounds to the nearest whole number, without the library
    // call that would keep the loop from being vectorised.
    constexpr double rounder = 0x1.8p52;
    const double x = steps * place;
    return x - ((x + rounder) - rounder);
}

} // namespace sectio
