#pragma once
/// @file
/// A reader of MIDI files of its own, written from the standard and apart from the library's, that
/// hears what a receiver would: each note with its pitch, and whether that moved while it sounded.

#include <string>
#include <vector>

namespace support {

struct HeardNote {
    long begin = 0, end = -1; ///< ticks; -1 where no note-off came
    int channel = 0;          ///< 0 … 15
    double key = 0;           ///< in semitones as MIDI counts them, with bend or tuning
    int velocity = 0, program = 0, volume = 100;
    double moved = 0; ///< semitones by which its pitch moved while it sounded
};

struct Heard {
    int ticks = 0;
    std::vector<HeardNote> notes; ///< by their beginnings
    std::vector<std::pair<long, int>> tempos;
    std::vector<std::string> texts; ///< of meta events 1 to 7
    bool zone = false;              ///< an MPE configuration was sent
};

/// Pitch bend with registered parameter 0, programs, volume, tuning messages 08 01, 08 02, 08 08
/// and 08 09 with registered parameter 3. Fails the test where the bytes are no MIDI file.
Heard heard(const std::string& bytes);

} // namespace support
