#pragma once
/// @file
/// Bounds of an enumeration as people write them.

#include <sectio/base/error.hpp>
#include <sectio/base/number.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace sectio {

/// The primes that the terms of ratios are made of.
struct PrimeChoice {
    unsigned limit = 13;        ///< the largest of them
    std::vector<unsigned> only; ///< of those up to the limit only these; empty: all

    /// "13-limit", "primes 2, 3, 7".
    std::string text() const;
    /// One by one, ascending.
    std::vector<unsigned> primes() const;
};

/// Reads `13`, all primes up to it, or `2,3,7`, these alone.
/// @throws Error expected_primes, not_a_prime, prime_limit_out_of_range, with the piece and its
/// place
PrimeChoice parse_primes(std::string_view text, const Place& place = {});

/// Reads a whole number from 1 up: `1000000`, `2^40`, `2^40 + 1`.
/// @throws Error bound_not_positive, bound_too_large, with the piece and its place
Integer parse_bound(std::string_view text, const Place& place = {});

} // namespace sectio
