#pragma once
/// @file
/// What real recordings hold and lone tones do not: soft attacks, strings that ring on, drones,
/// vibrato, bars, reverberation, glides, noises. Each with what is played in it.

#include <cstdint>
#include <string>
#include <vector>

namespace pitch_study {

/// A note that somebody plays: its sound, and so what is to be heard.
struct Played {
    double start_s = 0, end_s = 0, hz = 0;
};

struct Scene {
    std::vector<float> sound{};
    std::vector<Played> played{};
    std::string drone{}; ///< as a user gives it, where there is one
};

inline constexpr int scene_rate = 44100;

/// The kinds of scenes, in the order of the table.
const std::vector<std::string>& scene_kinds();
/// The same kind and seed give the same scene.
Scene scene(const std::string& kind, std::uint32_t seed);

} // namespace pitch_study
