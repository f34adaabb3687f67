#pragma once
/// @file
/// The val (map of primes) of a division: the step nearest to each prime, and what follows for
/// ratios.
///
/// A ratio is a product of primes, so steps for the primes give steps for every ratio: 81/80 =
/// 2^-4 3^4 5^-1 has -4 v(2) + 4 v(3) - v(5) steps. These add up whenever intervals do, which
/// nearest steps need not. The two ways may differ for one ratio: 648/625 (62.565 cents) has 0
/// steps of 12 by its primes, but is nearest to 1 step; 81/80 (21.506 cents) has 2 steps of 13 by
/// its primes, but is nearest to 0. Both are shown where it matters.

#include <sectio/division/division.hpp>

#include <optional>
#include <vector>

namespace sectio {

/// The steps nearest to the primes up to a limit, in one division.
class Val {
  public:
    /// @throws Error unfit_argument for a limit beyond most_sieved
    Val(const EqualDivision& division, unsigned prime_limit);

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
