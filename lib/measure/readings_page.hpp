#pragma once
/// @file
/// Readings of a tuner as a list of pitches, and as a page.

#include <sectio/instrument/measured_page.hpp>
#include <sectio/measure/readings.hpp>

#include <optional>
#include <string>
#include <vector>

namespace sectio::measure {

/// The notes above `tonic` ("D4"), which is exact, or above the lowest of them, which is not.
/// @throws Error of parse_tonic()
PitchList read_pitches(const std::vector<ReadNote>& notes, const std::optional<StatedPitch>& tonic,
                       const Pitch& a4);

/// The pitches with how many readings each has, and their spread.
page::Page readings_page(const PitchList& list, const std::vector<ReadNote>& notes,
                         const Pitch& a4);

} // namespace sectio::measure
