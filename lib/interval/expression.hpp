#pragma once
/// @file
/// Intervals and pitches as people write them.
///
///     stack    := ['-'] term { ('+' | '-') term }
///     term     := {whole 'x'} quotient
///     quotient := power [ ('/' | ':') power ] | power { ' ' power }
///     power    := primary { '^' exponent }
///     primary  := whole | steps | cents | '(' stack ')' | name
///     steps    := ['-'] whole 'of' whole [ '(' stack ')' ]
///     cents    := ['-'] decimal 'c'
///     exponent := ['-'] decimal | '(' ['-'] decimal ['/' decimal] ')'
///     name     := '"' text '"' | words
///
/// Powers of numbers that stand side by side, `2^-4 3^4 5^-1`, are their product; one of them at
/// least has an exponent. A name may begin with digits: `11th harmonic`.
///
/// `^` binds closer than the slash, so 3^53/2^84 is a ratio of two powers; a slash or colon takes
/// what is below from what is above. Unicode signs read as their ASCII twins: × − ¢ ∶ ⁄ ÷
/// ′superscripts′ (5²), curly and angled quotation marks, ♯ ♭ ♮ 𝄪 𝄫, and every kind of space.

#include <sectio/base/error.hpp>
#include <sectio/interval/interval.hpp>
#include <sectio/interval/pitch.hpp>

#include <functional>
#include <optional>
#include <string_view>

namespace sectio {

/// Finds the interval that the trade calls `name`, or nothing.
using NameLookup = std::function<std::optional<Interval>(std::string_view name)>;

/// Reads an interval. `place` is where `text` begins: errors count their columns from there.
/// @throws Error with the piece and its place, ErrorCode::unusable
Interval parse_interval(std::string_view text, const Place& place = {},
                        const NameLookup& names = nullptr);

/// The same, or nothing where `text` is no interval. @throws Error of other kinds than unusable
std::optional<Interval> try_parse_interval(std::string_view text,
                                           const NameLookup& names = nullptr);

/// Reads an interval where a size is asked: an uncertainty, a bound, a tolerance. A whole number
/// without a slash or a unit is refused there, since `45` would be the ratio 45/1 and is meant as
/// 45 cents.
/// @throws Error with the piece and its place, ErrorCode::unusable; size_needs_unit
Interval parse_size(std::string_view text, const Place& place = {},
                    const NameLookup& names = nullptr);

/// Reads a pitch: a note with octave and, if wanted, cents (`D4`, `F#4-14c`, `B♭3`), or a frequency
/// (`440Hz`, `261.6256 Hz`). Octaves begin at C; C4 is the middle C of MIDI key 60.
/// @throws Error with the piece and its place, ErrorCode::unusable
Pitch parse_pitch(std::string_view text, const Pitch& a4 = Pitch::concert_a(),
                  const Place& place = {});

/// Reads a reference such as `A4 = 440 Hz`, `A4=442`, `C4=256Hz` and gives the A4 it means, the
/// other note being in 12 equal steps from it.
/// @throws Error with the piece and its place, ErrorCode::unusable
Pitch parse_reference(std::string_view text, const Place& place = {});

/// Reads a note name without octave ("F#", "B♭").
/// @throws Error with the piece and its place, ErrorCode::unusable
NoteName parse_note_name(std::string_view text, const Place& place = {});

/// Whether parse_note_name() reads the text: a letter with its accidentals and no octave.
bool is_note_name(std::string_view text);

} // namespace sectio
