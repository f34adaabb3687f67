#pragma once
/// @file
/// The lattice of all commas that a division's map of primes tempers out, and a reduced basis.
///
/// The exponents of the ratios with 0 steps form a lattice: the kernel of the map, of one dimension
/// less than there are primes (or all of it where every prime has 0 steps). Its basis is reduced in
/// the sense of Lenstra, Lenstra and Lovász: short vectors first, nearly at right angles. Short is
/// meant musically: the exponent of a prime p counts round(1024 log2 p), so a vector's length is
/// about its ratio's complexity.
///
/// The reduction is fplll's (LGPL), in exact integers with delta 0.99 and eta 0.51. It runs on the
/// rows (weighted unit vector of p | C v(p)), one for each prime, v(p) its steps. With C large
/// enough, all rows of a reduced basis but the last have 0 in the last place. Whether they have is
/// looked at, and C grows until it is so. The rows then found are the kernel, not merely in it:
/// the rows remain a basis of all vectors, so a vector of the kernel is a whole combination of
/// them, and of the last one it takes none, since that one alone has steps.
/// Sources: A. K. Lenstra, H. W. Lenstra, L. Lovász, Math. Ann. 261 (1982); H. Cohen, A Course in
/// Computational Algebraic Number Theory (1993), 2.7.1.

#include <sectio/approx/smooth_ratios.hpp>
#include <sectio/division/division.hpp>

#include <array>
#include <cstdint>
#include <vector>

namespace sectio {

/// Exponents of the primes 2 … 31 in a vector of the basis; those of 2 and 3 alone may be as large
/// as the division.
using LongExponents = std::array<std::int64_t, most_primes>;

/// The interval with these exponents.
Interval interval_of(const LongExponents& exponents);

/// The steps nearest to the primes 2 … 31.
/// @throws Error division_out_of_range for a division of more than limits::division_steps,
/// period_too_small where a prime has more than 2^40 steps
LongExponents small_val(const EqualDivision& division);

/// A reduced basis of the ratios of the prime limit that have 0 steps by the val, in the
/// order of the reduction, each as the interval that rises. With `only`, of those of these primes
/// alone. The division is not kept.
/// @throws Error prime_limit_out_of_range, division_out_of_range, period_too_small where a prime
/// has more than 2^40 steps, reduction_failed
std::vector<LongExponents> tempered_out_basis(const EqualDivision& division, unsigned prime_limit,
                                              const std::vector<unsigned>& only = {});

} // namespace sectio
