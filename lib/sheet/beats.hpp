#pragma once
/// @file
/// Private to lib/sheet: how fast two sounding pitches beat.

#include <sectio/page/page.hpp>
#include <sectio/scale/comparison.hpp>

#include <optional>

namespace sectio {

/// The simplest ratio within near_ratio_cents of an interval, of primes up to `limit` where one is
/// asked. @throws Error as near_ratios()
std::optional<Interval> simple_ratio(const Interval& interval, std::optional<unsigned> limit = {});

/// Beats per second of the partials that meet where `pitch` and `drone` are near `ratio` p/q: of
/// the q-th of `pitch` and the p-th of `drone` (H. von Helmholtz, On the Sensations of Tone, ch. 8
/// and 10). Not negative, correctly rounded.
page::Number beats(const Pitch& pitch, const Pitch& drone, const Rational& ratio);

/// Each degree against the drone: cents, the simplest ratio near it, beats per second, those of a
/// measured degree with what its half width leaves to them.
/// @throws Error as near_ratios()
page::Table drone_table(const Comparison& comparison, const Pitch& drone,
                        std::optional<unsigned> limit = {});

} // namespace sectio
