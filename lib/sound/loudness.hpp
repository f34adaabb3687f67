#pragma once
/// @file
/// How loud what is made here may be: it begins quietly and stays well below full scale.

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <span>

namespace sectio::sound {

/// No sample goes beyond a quarter of full scale, -12 dBFS.
inline constexpr double peak = 0.25;
/// A string and a drone beside one another.
inline constexpr double string_level = 1, drone_level = 0.5;

/// Of each of several drones, which together have the power of one; `drones` >= 1.
inline double level_of_each(std::size_t drones) {
    return drone_level / std::sqrt(static_cast<double>(drones));
}

/// Silence after the last note, in which the drone fades.
inline constexpr double tail_s = 1.5;

/// How long the sound swells at its beginning, unless asked otherwise.
inline constexpr double usual_swell_s = 5;

/// Makes the first `seconds` swell from a tenth of their strength to the whole, by equal steps of
/// loudness. `samples` are those from the frame `first` on.
void start_quietly(std::span<float> samples, std::int64_t first, double seconds);

} // namespace sectio::sound
