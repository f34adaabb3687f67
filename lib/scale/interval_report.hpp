#pragma once
/// @file
/// All that is known of an interval: the answer of `sectio interval`.

#include <sectio/division/division.hpp>
#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/comparison.hpp>

#include <optional>
#include <string>
#include <vector>

namespace sectio {

struct IntervalReport {
    std::string input; ///< the expression as written
    Interval interval;
    Factors factors; ///< split into primes; a base that withstood the search is not marked prime
    std::optional<Integer> prime_limit; ///< largest prime, where all are known; none for 1/1
    std::vector<Entry> names;           ///< catalogue entries of this very interval
    std::vector<ComparedStep> steps;    ///< in the order of the divisions asked for
    std::vector<Interval> near_ratios;  ///< simplest first
};

/// Near ratios are the simplest ones at most this far away: more than a melody's ear lets pass for
/// the same interval (common practice, no source).
inline constexpr int near_ratio_cents = 10;
inline constexpr std::size_t most_near_ratios = 5;

/// @throws Error with the place in `input`, which `source` names
IntervalReport report(const std::string& input, const std::string& source,
                      const std::vector<EqualDivision>& divisions, const Catalogue& catalogue);

/// "2^-19 3^12", "5^(1/4)"; "1" for the unison.
std::string factors_text(const Factors& factors);

/// "-19" or "1/4".
std::string exponent_text(const Rational& exponent);

} // namespace sectio
