#pragma once
/// @file
/// Places of frets as people write them down: in a list, in a table.

#include <sectio/instrument/measured_frets.hpp>
#include <sectio/scale/pitch_list.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace sectio {

/// Readings and what they were measured from.
struct FretNotes {
    std::vector<FretReading> readings;
    FretDistances distances = FretDistances::from_nut;
    std::vector<std::string> remarks{}; ///< on columns that were not read
    bool headed = false;                ///< a heading says what `distances` are
};

/// A length above 0, such as that of a string. @throws Error length_not_positive, and those of
/// parse_measured_length()
MeasuredLength parse_positive_length(std::string_view text, const Place& place);

/// What a length may be off. @throws Error half_width_not_positive, and those of parse_length()
Length parse_half_width(std::string_view text, const Place& place);

/// Reads `57.4mm, 112mm ± 0.5mm, 6 3/8 in`, separated by commas or semicolons; with both sides of a
/// fret as `47mm : 377.2mm`, nut to fret and fret to bridge.
/// @throws Error no_fret_readings, and those of parse_measured_length(), with the place in `text`
std::vector<FretReading> parse_fret_list(std::string_view text, const Place& place);

/// Reads a table (CSV; RFC 4180, also with semicolons or tabs), a fret a row. Its columns, by their
/// headings: `nut` or `from nut`; or `spacing` or `between`, from the fret before; `bridge`, from
/// fret to bridge; `uncertainty`, of each of them; `name`, `label` or `fret`. A heading may name
/// the unit of bare numbers below it: `nut_mm`, `nut (mm)`. Without headings each row is a place
/// from the nut.
/// @throws Error with line and column
FretNotes read_fret_table(std::string_view text, const std::string& file_name);

/// The half width of every length that states none.
void give_half_width(std::vector<FretReading>& readings, const Length& half_width);

/// The open string and its frets as pitches above it; `open` is as written ("D4"), empty if the
/// pitch is not known.
/// @throws Error of parse_pitch()
PitchList fret_pitches(const MeasuredFrets& frets, const std::string& name,
                       const std::optional<StatedPitch>& open, const Pitch& a4);

} // namespace sectio
