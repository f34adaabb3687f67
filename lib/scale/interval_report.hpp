#pragma once
/// @file
/// All that is known of an interval: the answer of `sectio interval`.

#include <sectio/approx/continued_fraction.hpp>
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
    std::vector<Interval> near_ratios;  ///< simplest first, each nearer than those before
    ContinuedFraction fraction;         ///< of its size in the measure asked for
};

/// Near ratios are at most this far away, which is more than a melody's ear lets pass for the same
/// interval (common practice, no source), and at most a quarter of the interval's own size.
inline constexpr int near_ratio_cents = 10;
inline constexpr std::size_t most_near_ratios = 5;

/// What is asked of every interval of a request.
struct ReportRequest {
    std::vector<EqualDivision> divisions{};      ///< to compare it with
    std::size_t quotients = 0;                   ///< of the continued fraction of its size …
    Interval measure = Interval::octave();       ///< … in this
    unsigned long factor_budget = search_budget; ///< for its prime factors (factor.hpp)
};

/// @throws Error with the place in `input`, which `source` names; too_many_quotients,
/// zero_power_of_nothing where the measure is the unison
IntervalReport report(const std::string& input, const std::string& source,
                      const ReportRequest& request, const Catalogue& catalogue);

/// "2^-19 3^12", "2^-3 3 5", "3^1 5^1", "5^(1/4)"; "1" for the unison. parse_interval reads it
/// back.
std::string factors_text(const Factors& factors);

/// "-19" or "1/4".
std::string exponent_text(const Rational& exponent);

} // namespace sectio
