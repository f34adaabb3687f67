#pragma once
/// @file
/// The simplest ratios near an interval.

#include <sectio/approx/smooth_ratios.hpp>

#include <cstddef>
#include <vector>

namespace sectio {

/// Where to stop. The list is complete within them: no ratio inside all bounds is simpler than one
/// that is listed.
struct NearBounds {
    std::size_t most = 10;                 ///< how many ratios at most, the simplest ones
    Integer max_term = Integer(1) << 20;   ///< largest numerator and denominator, itself included
    std::optional<unsigned> prime_limit{}; ///< up to largest_prime_limit; none: any primes
};

/// The ratios a/b with |size(a/b) - size(interval)| <= tolerance, simplest first: by numerator
/// times denominator (the logarithm of which is the usual measure of a ratio's complexity: Tenney,
/// "John Cage and the Theory of Harmony", 1983), equal products by size.
///
/// Without a prime limit they are taken from the tree of Stern and Brocot, where a fraction is
/// simpler than all fractions below it, so the cost is that of the ratios listed; with one, all
/// ratios of the limit are enumerated (smooth_ratios.hpp).
/// @throws Error tolerance_negative, bound_not_positive, bound_too_large (limits::term_bits),
/// prime_limit_out_of_range, too_many_ratios; unfit_argument for more than limits::listed_ratios
std::vector<Interval> near_ratios(const Interval& interval, const Interval& tolerance,
                                  const NearBounds& bounds = {});

/// Nearer and nearer ratios: the simplest one within the tolerance, then each time the simplest one
/// that is at most a quarter as far away as the last, up to one without any error. So 350 cents
/// are 11/9 and 60/49, without the many ratios between that are neither simple nor near.
/// @throws Error as near_ratios()
std::vector<Interval> successive_approximations(const Interval& interval, const Interval& tolerance,
                                                const NearBounds& bounds = {});

} // namespace sectio
