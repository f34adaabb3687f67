#pragma once
/// @file
/// Private to lib/approx: the whole numbers of a prime limit up to a bound, with their sizes in
/// fixed point.

#include <sectio/approx/smooth_ratios.hpp>

namespace sectio {

/// Sizes as whole multiples of 2^-fraction_bits octave.
///
/// Each prime's size is within one unit, so a number of n bits, having fewer than n prime factors,
/// is within n units of its size, and the quotient or product of two of them within 2n.
class SizeUnits {
  public:
    /// For numbers up to `max_term`. Sizes stay below 2^61 units.
    explicit SizeUnits(const Integer& max_term);

    /// Size of a prime by its place in Exponents.
    std::int64_t prime(std::size_t index) const { return primes_[index]; }
    /// Size of an interval, within 1 unit; cut to ±2^62 where it lies beyond.
    std::int64_t of(const Interval& interval) const;
    /// Bound in units for the error of a quotient's or product's size with that of an interval
    /// beside it.
    std::int64_t error() const { return error_; }

  private:
    long fraction_bits_;
    std::int64_t error_;
    std::array<std::int64_t, most_primes> primes_{};
};

/// A number by its exponents, ordered by what the val makes of it and then by size.
struct SmoothNumber {
    std::int64_t steps; ///< its steps by the val; 0 where none is asked for
    std::int64_t size;  ///< in SizeUnits
    Exponents exponents;
};

/// Classes by the set of primes that divide: bit i for the prime at place i.
using SmoothClasses = std::vector<std::vector<SmoothNumber>>;

/// All numbers of the prime limit up to `max_term` that may be a term of a ratio in the window,
/// each class sorted; nothing where there are more than `most`. A number that all primes divide has
/// only 1 for a partner, so it is left out where it lies beyond the window itself.
std::optional<SmoothClasses> smooth_numbers(const RatioBounds& bounds, const Integer& max_term,
                                            const SizeUnits& units, std::size_t most);

} // namespace sectio
