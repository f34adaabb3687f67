#pragma once
/// @file
/// Tunings read back from messages, and the scale that one of them is.

#include <sectio/scale/scale.hpp>
#include <sectio/tuning/key_table.hpp>
#include <sectio/tuning/tuning_message.hpp>

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace sectio::tuning {

/// What an instrument stores under one bank and program, or has on its channels.
struct StoredTuning {
    std::string name; ///< of the dump; may be empty
    int bank = 0, program = 0;
    /// Where it sounds, bit 0 for channel 1; 0 for a tuning stored under its bank and program.
    std::uint16_t channels = 0;
    bool octave = false; ///< 12 offsets, the same in all octaves
    /// The keys that the messages tune, each exactly as they say; the others keep their pitch.
    std::array<std::optional<Pitch>, key_count> keys;
};

/// The tunings that messages leave behind when they are received in their order, sorted as they
/// first come; a channel has the last one that was sent to it.
std::vector<StoredTuning> stored_tunings(const std::vector<TuningMessage>& messages);

/// A tuning as a scale from `tonic_key` up, whose name is the tuning's own or else `name`. The
/// period is the octave where the keys repeat at it, else 3/1 or 3/2, else whatever interval they
/// repeat at, within the rounding of the words; without any, the keys are a set of pitches from the
/// lowest up. Degrees are exactly what the messages say, and the scale says how finely that is.
/// Without a wish the tonic is middle C, or the lowest key where that is not tuned.
/// @throws Error tuning_key_silent
Scale scale_of(const StoredTuning& tuning, const std::string& name,
               std::optional<int> tonic_key = std::nullopt);

} // namespace sectio::tuning
