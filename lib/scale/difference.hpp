#pragma once
/// @file
/// How far one scale lies from another, degree by degree.

#include <sectio/scale/tuned_scale.hpp>

#include <optional>
#include <vector>

namespace sectio {

/// A degree of the first scale and the degree of the second that lies nearest to it.
struct DegreePair {
    std::size_t a = 0, b = 0; ///< indices in Scale::degrees
    Interval error;           ///< the second minus the first
};

struct Difference {
    std::size_t start_degree = 0; ///< of the second scale, at the first scale's tonic; from 0
    Interval offset;              ///< of that degree above the tonic
    std::vector<DegreePair> degrees;
    Interval max_error;     ///< largest absolute error, not negative
    std::size_t common = 0; ///< degrees that are exactly equal

    std::vector<Interval> errors() const;
};

/// Both from the same tonic: every degree of `a` beside the nearest of `b`; half way the lower.
/// @throws Error of check_rules() for either, here and below
Difference difference(const Scale& a, const Scale& b);

/// The second scale moved as a whole so that the sum of the squared errors is smallest, whichever
/// of its degrees then lies at the tonic. The place of the minimum is found in double precision
/// among all there are (within 0.000001 cents, of equal ones the smallest move); from there the
/// offset is the exact mean. Nothing for a second scale without period. The time is about that of
/// sorting the pairs of degrees. @throws Error too_many_pairs
std::optional<Difference> best_difference(const Scale& a, const Scale& b);

} // namespace sectio
