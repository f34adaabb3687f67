#pragma once
/// @file
/// What a listener hears: a scale note by note, over drones if wanted.

#include <sectio/scale/tuned_scale.hpp>
#include <sectio/sound/loudness.hpp>

#include <vector>

namespace sectio::sound {

/// One plucked string.
struct SoundedNote {
    double start_s = 0;
    double seconds = 1;
    Pitch pitch;
    long number = 1;        ///< of the degree, as TunedScale::number() has it
    NoteInOctave note;      ///< its nearest key
    bool neighbour = false; ///< the key itself sounds, for comparison
};

/// Notes in the order of their beginnings.
struct Listening {
    std::vector<SoundedNote> notes;
    std::vector<Pitch> drones; ///< from beginning to end
    double seconds = 0;        ///< of the whole
    double swell_s = usual_swell_s;
};

struct ListeningOptions {
    std::vector<Pitch> drones{};
    double note_seconds = 1.6;      ///< each
    bool neighbours = true;         ///< each degree is followed by its key and heard again
    double swell_s = usual_swell_s; ///< at the beginning
};

/// The degrees of `scale` from the lowest to the period, one after the other.
/// @throws Error sound_pitch_out_of_range, sound_seconds, listening_too_long
Listening listen_to(const TunedScale& scale, const ListeningOptions& options = {});

/// `scale` on a tonic that lies `by` higher, which has its key's usual name.
TunedScale transposed(const TunedScale& scale, const Interval& by);

/// Its samples at tone.hpp's sample_rate. Its beginning swells from a tenth of the
/// strength, and no sample goes beyond a quarter of full scale (-12 dBFS).
std::vector<float> samples_of(const Listening& listening);

} // namespace sectio::sound
