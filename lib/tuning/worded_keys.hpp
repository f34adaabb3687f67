#pragma once
/// @file
/// Private to lib/tuning: pitches as messages of the MIDI Tuning Standard say them. Used by
/// TuningRenderer.

#include <sectio/tuning/performance.hpp>
#include <sectio/tuning/tuning_message.hpp>

namespace sectio::tuning {

/// A pitch as a key and what the messages say of it.
struct WordedKey {
    static constexpr int beyond = -1; ///< a key that there is not

    int key = beyond;
    std::size_t slot = 0; ///< what is tuned: the key, or its note (0 … 11) in octave messages
    int value = 0;        ///< frequency word, or steps of the offset
    Interval error;       ///< of what sounds from the pitch
    bool counted = false;
};

/// `pitch` as messages of `kind` say it; beyond all keys where none can.
WordedKey worded(const Pitch& pitch, MessageKind kind);

/// Whether octave messages need no more tunings than others would: no note of the twelve has more
/// offsets than one of its keys.
bool fits_octave(const Performance& music);

} // namespace sectio::tuning
