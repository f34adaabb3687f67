#include <sectio/sound/tone.hpp>
#include <sectio/sound/wave_file.hpp>

#include <algorithm>
#include <cmath>

namespace sectio::sound {

namespace {

constexpr int bytes_a_sample = 3, channels = 1;

/// A whole number as the format has it: least byte first.
void put(std::string& bytes, std::uint32_t number, int count) {
    for (int i = 0; i < count; ++i)
        bytes += static_cast<char>(number >> (8 * i) & 0xFF);
}

} // namespace

std::string wave_header(std::int64_t frames) {
    constexpr std::uint32_t format_bytes = 16, before_samples = 36;
    const auto sample_bytes = static_cast<std::uint32_t>(frames * bytes_a_sample);
    std::string bytes = "RIFF";
    put(bytes, before_samples + sample_bytes + (sample_bytes & 1U), 4);
    bytes += "WAVEfmt ";
    put(bytes, format_bytes, 4);
    put(bytes, 1, 2); // whole numbers, not compressed
    put(bytes, channels, 2);
    put(bytes, sample_rate, 4);
    put(bytes, sample_rate * channels * bytes_a_sample, 4);
    put(bytes, channels * bytes_a_sample, 2);
    put(bytes, 8 * bytes_a_sample, 2);
    bytes += "data";
    put(bytes, sample_bytes, 4);
    return bytes;
}

std::string wave_samples(std::span<const float> samples) {
    constexpr float full = 8'388'607; // 2^23 - 1
    std::string bytes;
    bytes.reserve(samples.size() * bytes_a_sample);
    for (const float sample : samples)
        put(bytes, static_cast<std::uint32_t>(std::lround(std::clamp(sample, -1.0F, 1.0F) * full)),
            bytes_a_sample);
    return bytes;
}

std::string wave_end(std::int64_t frames) {
    return std::string(static_cast<std::size_t>(frames & 1), '\0'); // chunks are of even length
}

std::string wave_bytes(std::span<const float> samples) {
    const std::int64_t frames = std::ssize(samples);
    return wave_header(frames) + wave_samples(samples) + wave_end(frames);
}

} // namespace sectio::sound
