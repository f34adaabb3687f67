#pragma once
/// @file
/// Products of coprime whole numbers to rational powers: the form that an interval is kept in.
///
/// Equality needs no primes: two products over one set of pairwise coprime bases > 1 are equal
/// exactly when all exponents are, because coprime numbers are multiplicatively independent
/// (unique factorisation). So a base is split into primes only when somebody asks for primes, and
/// terms out of reach of factoring stay exact all the same.
/// Source: E. Bach, J. Driscoll, J. Shallit, "Factor refinement", J. Algorithms 15 (1993).

#include <sectio/base/number.hpp>

#include <vector>

namespace sectio {

/// One base with its exponent.
struct Factor {
    Integer base;      ///< > 1
    Rational exponent; ///< not 0
    bool prime;        ///< `base` is known to be a prime; false says "not known"
};

/// Canonical form of all functions here: bases ascending and pairwise coprime; the primes up to 47
/// stand apart from the rest; a base not known to be a prime is no perfect power where its exponent
/// is no whole number.
using Factors = std::vector<Factor>;

/// Primes that are split off every number at once.
inline constexpr unsigned long largest_split_prime = 47;

/// Factors of n^sign, n >= 1 and sign 1 or -1.
Factors factors_of(Integer n, int sign);

/// One base with the exponents that two products have over it; either may be 0.
struct AlignedFactor {
    Integer base;
    bool prime;
    Rational first, second;
};

/// Both products over one set of coprime bases.
std::vector<AlignedFactor> aligned(const Factors& a, const Factors& b);

/// The product of a and b.
Factors product(const Factors& a, const Factors& b);

/// a over b, free of the limits on exponents and factors: to be compared, not kept.
Factors quotient(const Factors& a, const Factors& b);

/// a to the power r.
Factors power(const Factors& a, const Rational& r);

/// What one search for divisors may spend in all, in products of 64-bit words: about half a second.
/// A 20-digit number takes some thousandth of it; a thousand long bases share it, so that none is
/// slow. Who factors many intervals in one go gives each its part.
inline constexpr unsigned long search_budget = 1UL << 26;

/// The factors with every base split into primes as far as a bounded search finds them (all primes
/// below 2^16, then Pollard's rho with Brent's cycle search, which ends when `budget` is spent).
/// Bases that withstood it have `prime` false. Primality is GMP's Baillie-PSW test: proved below
/// 2^64, no exception known above. Sources: J. M. Pollard, BIT 15 (1975); R. P. Brent, BIT 20
/// (1980); R. Baillie, S. S. Wagstaff, Math. Comp. 35 (1980).
Factors split_into_primes(const Factors& a, unsigned long budget = search_budget);

} // namespace sectio
