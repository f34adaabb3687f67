#pragma once
/// @file
/// Measured pitches as a page: what every `measure` command prints.

#include <sectio/page/page.hpp>
#include <sectio/scale/pitch_list.hpp>

#include <string>

namespace sectio {

/// One row a pitch: label, hertz, cents above the list's zero with the half width, the nearest key
/// of 12 equal steps from `a4` and the deviation from it; frequencies and keys only where the list
/// knows its zero.
page::Table pitch_table(const PitchList& list, const Pitch& a4);

/// The period, and how near pitches of different periods are one degree, for programs.
void add_period(page::Facts& facts, const std::optional<Interval>& period,
                const std::optional<Interval>& same_within);

/// The list's name, source, tonic, reference, period, table and remarks. `kind` is for programs.
page::Page measured_page(const PitchList& list, const Pitch& a4, const std::string& kind,
                         page::Table table);

} // namespace sectio
