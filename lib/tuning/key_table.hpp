#pragma once
/// @file
/// A scale laid onto the 128 keys of MIDI.

#include <sectio/scale/tuned_scale.hpp>

#include <array>
#include <optional>
#include <string_view>
#include <vector>

namespace sectio::tuning {

inline constexpr int key_count = 128;

/// Which keys sound which degrees.
struct KeyMapping {
    int anchor = 60; ///< the key of the tonic, 0 … 127
    /// For the keys from the anchor up the degree that each sounds, 0 for the tonic; nothing for a
    /// key that keeps its pitch. A number of degrees or more goes on into the next period. The row
    /// is repeated upwards and downwards, a period of the scale each time. Empty for a key a
    /// degree.
    std::vector<std::optional<int>> row;
};

/// 12 keys an octave: each degree on the key nearest to it, counted from the tonic's; the other
/// keys keep their pitch.
/// @throws Error tuning_keys_without_octave, tuning_key_taken
KeyMapping nearest_keys(const Scale& scale, int anchor);
/// A row as written: degrees from 1 (the tonic), and - for a key that keeps its pitch: "1,-,2,3".
/// @throws Error tuning_mapping
KeyMapping parse_mapping(std::string_view text, int anchor, const Place& place = {});

/// What a key sounds.
struct MappedKey {
    DegreeAt at;
    Pitch pitch;
};

/// Each key's degree and pitch; nothing for a key that keeps its pitch.
using KeyTable = std::array<std::optional<MappedKey>, key_count>;

/// The table of `scale`. @throws Error tuning_no_key, tuning_mapping for numbers out of range. Keys
/// that would sound more than 20 octaves from 1 Hz are left out.
KeyTable key_table(const TunedScale& scale, const KeyMapping& mapping);

} // namespace sectio::tuning
