#pragma once
/// @file
/// The note that a tuning starts from, as both a pitch and a written note.

#include <sectio/interval/pitch.hpp>
#include <sectio/score/written.hpp>

#include <string>

namespace sectio::score {

struct Tonic {
    int key;            ///< its nearest MIDI key
    Interval deviation; ///< of the pitch from that key
    WrittenPitch note;  ///< the key with the letter that the text has, or its usual one
    std::string text;
};

/// @throws Error for what is no pitch
Tonic parse_tonic(const std::string& text, const Pitch& a4);

} // namespace sectio::score
