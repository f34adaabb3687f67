#pragma once
/// @file
/// Commas: small differences between ratios, all of them within bounds.
///
/// A comma of a prime limit is a ratio above 1/1 whose terms have no prime beyond the limit. The
/// enumeration is complete (smooth_ratios.hpp). A division sends a comma to nothing where its map
/// of primes gives it 0 steps (val.hpp). The step nearest to the comma itself may be another
/// one: a comma of half a step or more is nearest to some step, yet it vanishes if the primes say
/// so; and one of a hair's breadth may have a step by the primes.

#include <sectio/approx/smooth_ratios.hpp>
#include <sectio/base/progress.hpp>
#include <sectio/division/val.hpp>

#include <optional>
#include <vector>

namespace sectio {

/// Which commas are wanted. Sizes lie strictly between the bounds; bounds of the terms include
/// their value.
struct CommaBounds {
    unsigned prime_limit = 13;
    Interval above{}; ///< not below the unison
    Interval below = Interval::from_cents(Rational(10));
    std::optional<Integer> max_product{}; ///< of numerator times denominator
    std::optional<Integer> max_term{};    ///< of numerator and denominator
    std::optional<EqualDivision> tempered_out_in{};
    std::vector<unsigned> only = {}; ///< of the primes up to the limit only these; empty: all
};

/// All commas within the bounds, ascending by size.
/// @throws Error above_falling, window_empty, prime_limit_out_of_range, no_term_bound,
/// bound_not_positive, term_too_large, too_many_ratios, division_out_of_range
std::vector<Exponents> commas(const CommaBounds& bounds, const Progress& progress = nullptr);

/// What a division makes of a comma.
struct CommaSteps {
    std::optional<Integer> by_primes; ///< by the val; nothing beyond its primes
    Integer nearest;                  ///< the step nearest to the comma itself
};
CommaSteps steps_of_comma(const Interval& comma, const EqualDivision& division, const Val& map);

} // namespace sectio
