#pragma once
/// @file
/// Sounds whose pitch is known, made up for these tests.

#include <cstdint>
#include <string>
#include <vector>

namespace support {

/// A tone of partials f(n) = n f √(1 + B n²), whose lowest lies at `hz`.
struct Tone {
    double hz = 440;
    double inharmonicity = 0;
    double seconds = 1;
    double rate = 44100;
    bool plucked = true;    ///< partials as a string plucked at 0.13 of its length has, dying away
    double fundamental = 1; ///< strength of the lowest partial against its usual one
    double noise_db = 200;  ///< power of the tone over that of white noise
    double glide_cents = 0; ///< by which it starts higher; settles with 0.1 s
};

/// The samples, the loudest of which is 0.5. The same seed gives the same sound.
std::vector<float> tone(const Tone& tone, std::uint64_t seed = 1);

/// White noise of this largest value.
std::vector<float> noise(double seconds, double rate, std::uint64_t seed = 1);

/// One behind the other.
std::vector<float> joined(const std::vector<std::vector<float>>& parts);
/// At once; as long as the longest.
std::vector<float> mixed(const std::vector<std::vector<float>>& parts);
std::vector<float> silence(double seconds, double rate);

/// A WAVE file of 16-bit samples; those of several channels stand side by side.
std::string wave_file(const std::vector<float>& samples, int rate, int channels = 1);

} // namespace support
