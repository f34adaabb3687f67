#pragma once
/// @file
/// The map of primes of a division: the step nearest to each prime, and what follows for ratios.
///
/// A ratio is a product of primes, so steps for the primes give steps for every ratio: 81/80 =
/// 2^-4 3^4 5^-1 has -4 v2 + 4 v3 - v5 steps. This makes steps add up whenever intervals do, which
/// nearest steps need not. The two ways may differ for one ratio: in 12 equal steps 128/125 has 0
/// steps by primes and 0 as its nearest step, but 15625/15552 in 34 equal steps of the octave has
/// its own nearest step 0 whatever the map says. Both are shown where it matters.

#include <sectio/division/division.hpp>

#include <optional>
#include <vector>

namespace sectio {

/// The steps nearest to the primes up to a limit, in one division.
class PrimeMap {
  public:
    PrimeMap(const EqualDivision& division, unsigned prime_limit);

    const std::vector<unsigned>& primes() const { return primes_; }
    /// The step nearest to each prime, in the order of primes().
    const std::vector<Integer>& steps() const { return steps_; }
    /// The steps that the map gives to a rational interval, or nothing where it is irrational or
    /// has a prime beyond the limit.
    std::optional<Integer> steps_of(const Interval& interval) const;

  private:
    std::vector<unsigned> primes_;
    std::vector<Integer> steps_;
};

} // namespace sectio
