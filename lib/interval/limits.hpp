#pragma once
/// @file
/// Every limit that Sectio puts on its input, in one place. A request beyond a limit is refused at
/// once with an error that names the limit; it is never tried slowly. docs/limits.md repeats these.

#include <cstddef>
#include <cstdint>

namespace sectio::limits {

/// Bits of a numerator or denominator, typed or printed.
inline constexpr std::size_t term_bits = 4096;
/// Bits of the numerator or denominator of an exponent, of a step number, of a count in `N x I`.
inline constexpr std::size_t exponent_bits = 256;
/// Digits after the point that a size may be asked for.
inline constexpr int decimal_digits = 10'000;
/// Characters of one expression.
inline constexpr std::size_t expression_characters = 100'000;
/// Parentheses inside parentheses in one expression.
inline constexpr int expression_nesting = 100;
/// Different factors of one interval; their number enters the cost of a sum squared.
inline constexpr std::size_t different_factors = 1000;
/// Bits of working precision after which a rounding or an order is given up as undecided.
inline constexpr long precision_bits = 1L << 18;
/// Octaves above or below 1 Hz within which a pitch has a printable frequency.
inline constexpr int pitch_octaves = 64;
/// Steps of an equal division for which tables are made; exact steps may be finer.
inline constexpr std::int64_t division_steps = 10'000'000;
/// Bytes of a scale file.
inline constexpr std::size_t scale_file_bytes = 1 << 20;
/// Pitches of one set or notes of one melody that is identified.
inline constexpr std::size_t identified_pitches = 100'000;
/// Bytes of a table of pitches.
inline constexpr std::size_t table_bytes = 16 << 20;
/// Degrees of one scale.
inline constexpr std::size_t scale_degrees = 10'000;
/// Divisions that one sheet compares a scale with.
inline constexpr std::size_t compared_divisions = 12;
/// Digits after the point of cents on a printed page.
inline constexpr int printed_digits = 6;
/// Marks of one division on a printed ruler; those of a finer one are not drawn.
inline constexpr std::int64_t ruler_marks = 10'000'000;

} // namespace sectio::limits
