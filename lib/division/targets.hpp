#pragma once
/// @file
/// The intervals that equal divisions are judged by.

#include <sectio/base/error.hpp>
#include <sectio/interval/interval.hpp>

#include <optional>
#include <string_view>
#include <vector>

namespace sectio {

/// Intervals to be approximated, in the order in which they are shown.
struct Targets {
    std::vector<Interval> intervals;
    /// Set where these are all ratios of an odd limit.
    std::optional<unsigned> odd_limit = std::nullopt;
};

/// All a/b with a and b odd and up to `limit`, each brought into one octave and taken once, 1/1
/// left out; ascending. For 5: 6/5, 5/4, 4/3, 3/2, 8/5, 5/3.
/// Source: H. Partch, Genesis of a Music (1949), who named the odd limit.
/// @throws Error odd_limit_out_of_range for a limit below 3 or of more than
/// limits::division_targets targets
Targets odd_limit_targets(unsigned limit);

/// The primes up to `limit`, as intervals 2/1, 3/1, 5/1 …
/// @throws Error prime_targets_out_of_range likewise
Targets prime_targets(unsigned limit);

/// Reads `odd:15` or `primes:13`; nothing where `text` begins with neither word and a colon.
/// @throws Error with the piece and its place
std::optional<Targets> parse_limit_targets(std::string_view text, const Place& place = {});

/// The targets that are no whole number of periods. The others have no error in any division, so
/// they would only make the mean smaller.
/// @throws Error no_targets where none is left
Targets without_periods(const Targets& targets, const Interval& period);

/// Two targets that lie end to end on a third, or on the unison, up to whole periods:
/// targets[first] + targets[second] = targets[sum] + periods * period.
struct TargetSum {
    std::size_t first, second;
    std::optional<std::size_t> sum; ///< nothing for the unison
    Integer periods;
};

/// The sums that decide consistency.
///
/// Over an odd limit from 5 on and the octave: for all odd a > b > 1 in the limit a/b and b/1 add
/// up to a/1. When these do, the nearest steps of all pairs of ratios of the limit that add up to a
/// third one do, since each nearest step is then a difference of two of the odd numbers' steps; a
/// falling ratio's steps are those of the rising one reversed, no ratio of an odd limit lying
/// half way between two steps of the octave, whose size no power of it has.
///
/// Of another set or period: all pairs whose sum is a target or the unison up to periods, for up to
/// limits::consistency_targets targets; none beyond.
std::vector<TargetSum> target_sums(const Targets& targets, const Interval& period);

} // namespace sectio
