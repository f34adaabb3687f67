#include "support/tones.hpp"

#include "support/bytes.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace support {

namespace {

constexpr int most_partials = 40;
constexpr double plucked_at = 0.13, glide_s = 0.1;

void add_steady(std::vector<double>& sound, double turn, double strength, double decay,
                double phase) {
    const double c = decay * std::cos(turn), d = decay * std::sin(turn);
    double re = strength * std::cos(phase), im = strength * std::sin(phase);
    for (double& value : sound) {
        value += im;
        const double next = re * c - im * d;
        im = re * d + im * c;
        re = next;
    }
}

void add_gliding(std::vector<double>& sound, const Tone& tone, double turn, double strength,
                 double decay, double phase) {
    for (std::size_t i = 0; i < sound.size(); ++i) {
        const double t = static_cast<double>(i) / tone.rate;
        phase += turn * std::exp2(tone.glide_cents * std::exp(-t / glide_s) / 1200);
        sound[i] += strength * std::sin(phase);
        strength *= decay;
    }
}

void add_partial(std::vector<double>& sound, const Tone& tone, double hz, double strength,
                 double decay_s, double phase) {
    const double turn = 2 * std::numbers::pi * hz / tone.rate;
    const double decay = std::exp(-1 / (decay_s * tone.rate));
    if (tone.glide_cents == 0)
        add_steady(sound, turn, strength, decay, phase);
    else
        add_gliding(sound, tone, turn, strength, decay, phase);
}

std::vector<float> scaled(const std::vector<double>& sound) {
    double most = 1e-12;
    for (double value : sound)
        most = std::max(most, std::abs(value));
    std::vector<float> result;
    for (double value : sound)
        result.push_back(static_cast<float>(value / most / 2));
    return result;
}

} // namespace

std::vector<float> tone(const Tone& tone, std::uint64_t seed) {
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> any(0, 1);
    std::normal_distribution<double> normal;
    std::vector<double> sound(static_cast<std::size_t>(tone.seconds * tone.rate));
    const double f = tone.hz / std::sqrt(1 + tone.inharmonicity);
    for (int n = 1; n <= most_partials; ++n) {
        const double hz = n * f * std::sqrt(1 + tone.inharmonicity * n * n);
        if (hz > 0.45 * tone.rate)
            break;
        const double usual =
            tone.plucked ? std::abs(std::sin(std::numbers::pi * n * plucked_at)) / n : 1.0 / n;
        add_partial(sound, tone, hz, n == 1 ? usual * tone.fundamental : usual,
                    tone.plucked ? 1.2 / (1 + 0.15 * n) : 1e9, 2 * std::numbers::pi * any(random));
    }
    double power = 0;
    for (double value : sound)
        power += value * value / static_cast<double>(sound.size());
    const double deviation = std::sqrt(power * std::pow(10, -tone.noise_db / 10));
    for (double& value : sound)
        value += deviation * normal(random);
    return scaled(sound);
}

std::vector<float> noise(double seconds, double rate, std::uint64_t seed) {
    std::mt19937_64 random(seed);
    std::normal_distribution<double> normal;
    std::vector<double> sound(static_cast<std::size_t>(seconds * rate));
    for (double& value : sound)
        value = normal(random);
    return scaled(sound);
}

std::vector<float> joined(const std::vector<std::vector<float>>& parts) {
    std::vector<float> result;
    for (const auto& part : parts)
        result.insert(result.end(), part.begin(), part.end());
    return result;
}

std::vector<float> mixed(const std::vector<std::vector<float>>& parts) {
    std::vector<float> result;
    for (const auto& part : parts) {
        result.resize(std::max(result.size(), part.size()));
        for (std::size_t i = 0; i < part.size(); ++i)
            result[i] += part[i] / static_cast<float>(parts.size());
    }
    return result;
}

std::vector<float> silence(double seconds, double rate) {
    return std::vector<float>(static_cast<std::size_t>(seconds * rate));
}

std::string wave_file(const std::vector<float>& samples, int rate, int channels) {
    const auto number = [](auto value, int size) {
        return little_endian(static_cast<std::uint64_t>(value), size);
    };
    const std::size_t size = 2 * samples.size();
    std::string bytes = "RIFF" + number(36 + size, 4) + "WAVEfmt " + number(16, 4) + number(1, 2)
                        + number(channels, 2) + number(rate, 4) + number(2 * channels * rate, 4)
                        + number(2 * channels, 2) + number(16, 2) + "data" + number(size, 4);
    for (float sample : samples)
        bytes += number(std::lround(sample * 32767.0F), 2);
    return bytes;
}

} // namespace support
