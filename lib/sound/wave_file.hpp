#pragma once
/// @file
/// Samples as a RIFF WAVE file: one channel, 24 bits, sample_rate. Source: "Multimedia Programming
/// Interface and Data Specifications 1.0", IBM and Microsoft, 1991.

#include <cstdint>
#include <span>
#include <string>

namespace sectio::sound {

/// What comes before the samples. `frames` is their number, 0 … 2^30.
std::string wave_header(std::int64_t frames);
/// The samples themselves, which are -1 … 1.
std::string wave_samples(std::span<const float> samples);
/// What comes after `frames` samples.
std::string wave_end(std::int64_t frames);

/// A whole file.
std::string wave_bytes(std::span<const float> samples);

} // namespace sectio::sound
