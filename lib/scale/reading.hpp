#pragma once
/// @file
/// Measured pitches as people write them down: a list with uncertainties, a scale, or a table with
/// weights.

#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/melody.hpp>
#include <sectio/scale/pitch_list.hpp>
#include <sectio/scale/scale.hpp>

#include <istream>
#include <string>
#include <string_view>

namespace sectio {

/// Reads pitches separated by commas or semicolons, each with an uncertainty if wanted:
///
///     440Hz, 470.3Hz±0.5Hz, 528 Hz     D4, F#4-14c, A4
///     203c, 386±3c, 498.0c±2c, 3/2     (±, also written +-, stands before a half width)
///
/// Pitches become intervals above the first of them; intervals stay what they are, above a pitch
/// 1/1 that is understood and put first where no interval is the unison.
/// @throws Error no_pitches, pitches_mixed, expected_uncertainty, and those of parse_interval()
Melody parse_pitches(std::string_view text, const Place& place = {},
                     const NameLookup& names = nullptr);

/// The degrees of a scale as a set. A period other than the octave counts as a pitch.
Melody melody_of(const Scale& scale);

/// Reads a table: comma, semicolon or tab between cells, quotes by RFC 4180, an optional header;
/// the comma may be the decimal sign where it does not separate. docs/commands/identify.md lists
/// the columns.
/// @throws Error with line and column
PitchList read_pitch_table(std::string_view text, const std::string& file_name,
                           const NameLookup& names = nullptr);
/// The same as a melody.
Melody read_table(std::string_view text, const std::string& file_name,
                  const NameLookup& names = nullptr);

/// What `sectio identify` takes: a catalogue id, a scale file, a table (.csv, .tsv, .txt), "-" for
/// any of them on standard input, or a list of pitches.
/// @throws Error with place and advice
Melody load_melody(const std::string& text, const Catalogue& catalogue, std::istream& input);

} // namespace sectio
