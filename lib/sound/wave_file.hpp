#pragma once
/// @file
/// Samples as a WAVE file.

#include <span>
#include <string>

namespace sectio::sound {

/// The bytes of a RIFF WAVE file, one channel, 24 bits, sample_rate. Samples are -1 … 1.
/// @throws Error sound_not_written
std::string wave_bytes(std::span<const float> samples);

} // namespace sectio::sound
