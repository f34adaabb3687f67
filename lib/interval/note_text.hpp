#pragma once
/// @file
/// Names of notes inside longer texts.

#include <sectio/base/text_cursor.hpp>
#include <sectio/interval/pitch.hpp>

namespace sectio {

/// Reads `F#`, `e♭` or `D` where `in` stands, with accidentals of at most two sharps or flats.
/// @throws Error expected_pitch, note_of_another_language
NoteName note_name(TextCursor& in);

} // namespace sectio
