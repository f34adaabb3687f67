#pragma once
/// @file
/// A scale laid onto the 128 keys of MIDI.

#include <sectio/interval/pitch.hpp>
#include <sectio/scale/scale.hpp>

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
    /// is repeated upwards and downwards, a period of the scale each time.
    std::vector<std::optional<int>> row;
};

/// A key a degree.
KeyMapping key_a_degree(const Scale& scale, int anchor);
/// 12 keys an octave: each degree on the key nearest to it, counted from the tonic's; the other
/// keys keep their pitch.
/// @throws Error tuning_keys_without_octave, tuning_key_taken
KeyMapping nearest_keys(const Scale& scale, int anchor);
/// A row as written: degrees from 1 (the tonic), and - for a key that keeps its pitch: "1,-,2,3".
/// @throws Error tuning_mapping
KeyMapping parse_mapping(std::string_view text, int anchor, const Place& place = {});

/// What a key sounds.
struct MappedKey {
    int degree; ///< 0 for the tonic
    Pitch pitch;
};

/// Each key's degree and pitch; nothing for a key that keeps its pitch.
using KeyTable = std::array<std::optional<MappedKey>, key_count>;

/// The table of `scale` with its tonic at `tonic`. A degree that lies below every key or above (by
/// limits::pitch_octaves) is left out. @throws Error tuning_degree for a degree that is not there
KeyTable key_table(const Scale& scale, const Pitch& tonic, const KeyMapping& mapping);

} // namespace sectio::tuning
