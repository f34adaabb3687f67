#pragma once
/// @file
/// Pitches as people write them down: lists, tables, scale files, and what commands printed.

#include <sectio/base/toml.hpp>
#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/melody.hpp>
#include <sectio/scale/pitch_list.hpp>
#include <sectio/scale/scale.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sectio {

/// Reads pitches separated by commas, semicolons or ends of lines, each with an uncertainty if
/// wanted:
///
///     440Hz, 470.3Hz±0.5Hz, 528 Hz     D4, F#4-14c, A4
///     203c, 386±3c, 498.0c±2c, 3/2     (±, also written +-, stands before a half width)
///
/// Pitches are counted from the first of them; intervals from a tonic 1/1 that is understood, with
/// the period 2/1. Intervals of which none was measured are meant as a scale.
/// @throws Error no_pitches, pitches_mixed, expected_uncertainty, and those of parse_interval()
PitchList parse_pitches(std::string_view text, const Place& place = {},
                        const NameLookup& names = nullptr);

/// Reads a half width: a size above 1/1 with its unit, "3c" or "81/80". A bare number is refused.
/// @throws Error size_needs_unit, uncertainty_negative, and those of parse_size()
Interval parse_uncertainty(std::string_view text, const Place& place = {});

/// Reads a table: comma, semicolon or tab between cells, quotes by RFC 4180, an optional header;
/// the comma may be the decimal sign where it does not separate. docs/commands/identify.md lists
/// the columns.
/// @throws Error with line and column
PitchList read_pitch_table(std::string_view text, const std::string& file_name,
                           const NameLookup& names = nullptr);
/// The same as a melody.
Melody read_table(std::string_view text, const std::string& file_name,
                  const NameLookup& names = nullptr);

/// Reads a scale file; the order of its degrees is yet to be checked.
/// @throws Error with file, line and column
PitchList read_scale_document(const TomlValue& document, const NameLookup& names = nullptr);

/// Reads the JSON that `sheet` or `measure` printed.
/// @throws Error json_syntax, no_pitches, with the place where it is known
PitchList read_json(std::string_view json, const std::string& file_name);

/// Below this line the readable text of a command carries what another command takes: a scale file
/// or a table.
inline constexpr std::string_view handed_on = "For the next command:";

/// What kind of text it is, scale file, JSON, table or list, and what it says. Of text
/// that a command printed what stands below `handed_on` is read.
/// @throws Error with file, line and column
PitchList read_pitches(std::string_view text, const std::string& file,
                       const NameLookup& names = nullptr);

} // namespace sectio
