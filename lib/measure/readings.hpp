#pragma once
/// @file
/// A tuner's readings, and several of one note put together.

#include <sectio/base/error.hpp>
#include <sectio/base/measured.hpp>
#include <sectio/interval/interval.hpp>
#include <sectio/interval/pitch.hpp>
#include <sectio/measure/string_tension.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sectio::measure {

/// One reading.
struct Reading {
    std::string label; ///< what the player calls the note: "fret 1"; may be empty
    Pitch pitch = Pitch::concert_a();
    Interval half_width; ///< as written after ±, else half a unit of the last digit that was read
    std::optional<Pitch> note{}; ///< that was written, without its cents; none for a frequency
    PlainString string{};        ///< what is known of what sounded
};

/// Reads `E4-41c`, `E4`, `329.1Hz`, `E4-41c±2c`, and what tuners and players write for them: `E4
/// -41`, `E4-41ct`, `E4 41 cents flat`; each with a label before it if wanted, as in `fret 1 =
/// E4-41c` or `fret 1: E4-41c`. A reading without ± has the half width of its last digit (JCGM
/// 100:2008, F.2.2.1): half a cent for E4-41c and for E4, 0.05 Hz for 329.1Hz.
/// @throws Error of parse_pitch() and parse_measured()
Reading parse_reading(std::string_view text, const Pitch& a4, const Place& place = {});

/// The arguments of a command as one list: cents alone, as in `E4 -29`, are of the note before
/// them.
std::string joined_readings(const std::vector<std::string>& arguments);

/// The list as every command reads pitches, without labels: `D4, E4-29c` of `D4: 0, E4 -29`.
/// @throws Error reading_decimal_comma
std::string readings_as_pitches(std::string_view text);

/// Reads several, separated by commas or semicolons. @throws Error no_readings and the like
std::vector<Reading> parse_readings(std::string_view text, const Pitch& a4, const Place& place);

/// Reads a table (CSV; RFC 4180, also with semicolons or tabs). Its columns, by their headings:
/// `hz` or `frequency`; or `note` or `pitch` (E4, E4-41c, 329.1Hz), with `deviation`, `offset` or
/// another of deviation_names beside it if wanted; `uncertainty` in cents; `label`, `name`,
/// `string` or `fret`; and of a plain string `length_mm`, `gauge_mm` (or cells with
/// another unit) and `material`. Without a heading the cells are a reading, a label and a reading,
/// or a note and its deviation. `remarks` gets a word on the columns that are none of these.
/// @throws Error with line and column; table_row_long
std::vector<Reading> read_reading_table(std::string_view text, const std::string& file_name,
                                        const Pitch& a4,
                                        std::vector<std::string>* remarks = nullptr);

/// All readings of one note.
struct ReadNote {
    std::string label;
    Pitch pitch = Pitch::concert_a(); ///< the mean, of the sizes in cents
    Interval uncertainty;             ///< half width that holds 95 times in 100
    std::size_t readings = 1;
    Basis basis =
        Basis::tuner; ///< scatter, where that makes more of the half width than the display
    std::optional<Interval> spread; ///< standard deviation of the readings, where there are several
    std::optional<Pitch> note{};    ///< that all readings were written from, without their cents
    PlainString string{};           ///< as one of the readings says
};

/// Puts the readings of each note together: those of one label, and of those without a label all
/// that follow one another in height by less than `apart`. Rising.
///
/// The mean's half width is ± t·s/√n, s being pooled over all notes that were read more than once
/// and t Student's factor for 95 of 100 (JCGM 100:2008, 4.2.4 and G.3.2), and added to it by
/// squares the largest half width of the readings themselves, which averaging does not remove.
/// Statistics are in doubles, whose error (1e-11 cents) the rounding up to 1e-4 cents covers.
/// @throws Error no_readings, too_many_pitches beyond limits::identified_pitches
std::vector<ReadNote> notes_of(std::vector<Reading> readings, const Interval& apart);

} // namespace sectio::measure
