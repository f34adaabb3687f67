#pragma once
/// @file
/// What the readers of pitches and of intervals share: names of notes, decimal commas.

#include <sectio/base/text_cursor.hpp>
#include <sectio/interval/pitch.hpp>

#include <cstddef>
#include <string_view>

namespace sectio {

/// Reads `F#`, `e♭` or `D` where `in` stands, with accidentals of at most two sharps or flats.
/// @throws Error expected_pitch, note_of_another_language
NoteName note_name(TextCursor& in);

/// Refuses the comma of `29,5`, where `number`, which began at `start`, is the 29 before it.
/// @throws Error decimal_comma, which advises to write a point and `unit`
void refuse_decimal_comma(TextCursor& in, std::size_t start, std::string_view number,
                          std::string_view unit);

} // namespace sectio
