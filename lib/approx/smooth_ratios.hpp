#pragma once
/// @file
/// Every ratio of a prime limit between two sizes: complete enumeration within bounds of the terms.
///
/// A ratio a/b in lowest terms has no prime in both terms. So the numbers of the prime limit up to
/// the bound are dealt into classes by the set of primes that divide them, each class sorted by
/// size; for two classes without a common prime one walk along both finds, for every b, the run of
/// those a whose quotient lies in the window. Nothing is left out, since every ratio in the bounds
/// has its terms in exactly one such pair of classes, and nothing is found that is not in lowest
/// terms. The cost is the walks plus the answer.
///
/// Sizes are compared as whole multiples of a tiny fraction of an octave with a stated error; the
/// few ratios nearer to an end of the window than that are decided by exact intervals.

#include <sectio/interval/interval.hpp>

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

namespace sectio {

/// The largest prime limit that is enumerated, and the number of primes up to it.
inline constexpr unsigned largest_prime_limit = 31;
inline constexpr std::size_t most_primes = 11;

/// Exponents of the primes 2, 3, 5 … 31 in a ratio.
using Exponents = std::array<std::int16_t, most_primes>;

/// Numerator and denominator of the ratio.
Integer numerator_of(const Exponents& exponents);
Integer denominator_of(const Exponents& exponents);
Interval interval_of(const Exponents& exponents);

/// The ratios wanted. At least one of max_term and max_product is needed.
struct RatioBounds {
    unsigned prime_limit = 13;
    Interval low, high;                       ///< sizes; descending ones are allowed
    bool with_low = false, with_high = false; ///< whether a ratio of just that size belongs
    std::optional<Integer> max_term;    ///< largest numerator and denominator, itself included
    std::optional<Integer> max_product; ///< largest numerator times denominator, itself included
    /// Only ratios that this map sends to 0: steps for each prime, in the order of Exponents.
    std::optional<std::array<std::int64_t, most_primes>> vanishing;
    /// Of the primes up to the limit only these; empty: all.
    std::vector<unsigned> only = {};
};

/// Told how much of the work is done, from 0 to 1. It may throw to end the work.
using RatioProgress = std::function<void(double done)>;

/// All ratios within the bounds, ascending by size.
/// @throws Error prime_limit_out_of_range, no_term_bound, bound_not_positive, term_too_large,
/// too_many_ratios and too_many_numbers (which name a bound that can be answered)
std::vector<Exponents> ratios_within(const RatioBounds& bounds,
                                     const RatioProgress& progress = nullptr);

/// Orders by numerator times denominator, exactly; equal products by size.
void sort_by_benedetti_height(std::vector<Exponents>& ratios);

} // namespace sectio
