#include <sectio/sound/loudness.hpp>
#include <sectio/sound/tone.hpp>

#include <cmath>

namespace sectio::sound {

void start_quietly(std::span<float> samples, std::int64_t first, double seconds) {
    const auto swell = std::llround(seconds * sample_rate);
    for (std::int64_t i = first; i < swell && i - first < std::ssize(samples); ++i)
        samples[static_cast<std::size_t>(i - first)] *= static_cast<float>(
            std::pow(10.0, static_cast<double>(i) / static_cast<double>(swell) - 1));
}

} // namespace sectio::sound
