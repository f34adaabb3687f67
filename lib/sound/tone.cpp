#include <sectio/base/argument.hpp>
#include <sectio/sound/messages.hpp>
#include <sectio/sound/tone.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sectio::sound {

namespace {

using std::numbers::pi;

/// Partials above this are left out, well below half the sample rate.
constexpr double highest_partial_hz = 16'000;
/// Partials weaker than this are dropped: even hundreds of them stay below a step of 24 bits, 1e-7.
constexpr double silence = 1e-10;

/// Half a cosine from 0 at 0 to 1 at `seconds` and beyond.
double rise(double time, double seconds) {
    return time >= seconds ? 1 : (1 - std::cos(pi * time / seconds)) / 2;
}

/// Strengths that together make at most 1.
template <typename Partials>
void bring_to_one(Partials& partials) {
    double sum = 0;
    for (const auto& partial : partials)
        sum += std::abs(partial.strength);
    for (auto& partial : partials)
        partial.strength /= sum;
}

/// Turns four pointers by one sample and says the sum of their heights before.
template <typename Four>
double turn(Four& four) {
    const double sum = (four.up[0] + four.up[1]) + (four.up[2] + four.up[3]);
    for (std::size_t k = 0; k < 4; ++k) {
        const double across = four.across[k], up = four.up[k];
        four.across[k] = across * four.step_across[k] - up * four.step_up[k];
        four.up[k] = across * four.step_up[k] + up * four.step_across[k];
    }
    return sum;
}

template <typename Four>
bool is_silent(const Four& four) {
    double most = 0;
    for (std::size_t k = 0; k < 4; ++k)
        most = std::max(most, std::hypot(four.across[k], four.up[k]));
    return most < silence;
}

void check_hz(double hz) {
    if (!(hz >= lowest_hz && hz <= highest_hz))
        throw error(message::sound_pitch_out_of_range, "", {}, hz, lowest_hz, highest_hz);
}

void check(const Tone& tone) {
    check_seconds(tone.seconds);
    check_hz(tone.hz);
    check_argument(tone.level >= 0 && std::isfinite(tone.level), "the level of a tone",
                   "0 or above");
}

} // namespace

std::vector<SoundingTone::Partial> SoundingTone::string_partials(double hz) {
    // The fundamental of 220 Hz loses 60 dB in some 5 s; a partial of 5 kHz in half a second.
    constexpr double air = slowest_decay, inside = 1.2e-8;
    std::vector<Partial> partials;
    for (int n = 1; n == 1 || n * hz < highest_partial_hz; ++n) {
        const double turn = 2 * pi * n * hz;
        partials.push_back(
            {static_cast<double>(n), std::sin(n * pi / 5) / n, air + inside * turn * turn});
    }
    bring_to_one(partials);
    return partials;
}

std::vector<SoundingTone::Partial> SoundingTone::drone_partials(double hz) {
    std::vector<Partial> partials;
    for (int n = 1; n == 1 || (n <= 12 && n * hz < highest_partial_hz); ++n)
        partials.push_back({static_cast<double>(n), 1.0 / n, 0});
    bring_to_one(partials);
    return partials;
}

SoundingTone::SoundingTone(const Tone& tone, std::vector<Partial> partials, double swell,
                           double fade)
    : partials_((partials.size() + 3) / 4), level_(tone.level), seconds_(tone.seconds),
      swell_(swell), fade_(fade), frames_(std::llround(tone.seconds * sample_rate)) {
    for (std::size_t i = 0; i < partials.size(); ++i) {
        Four& four = partials_[i / 4];
        four.across[i % 4] = partials[i].strength;
        four.number[i % 4] = partials[i].number;
        four.decay[i % 4] = partials[i].decay;
    }
    set_hz(tone.hz);
}

void check_seconds(double seconds) {
    if (!(seconds >= 0 && std::isfinite(seconds)))
        throw error(message::sound_seconds, "", {}, seconds);
}

SoundingTone SoundingTone::plucked(const Tone& tone) {
    check(tone);
    return {tone, string_partials(tone.hz), 0.002, 0.05};
}

SoundingTone SoundingTone::drone(const Tone& tone) {
    check(tone);
    const double turn = std::min(2.0, tone.seconds / 2);
    return {tone, drone_partials(tone.hz), turn, turn};
}

double SoundingTone::shape(double time) const {
    return rise(time, swell_) * rise(seconds_ - time, fade_);
}

void SoundingTone::set_hz(double hz) {
    check_argument(hz > 0 && std::isfinite(hz), "a frequency", "above 0");
    for (Four& four : partials_)
        for (std::size_t k = 0; k < 4; ++k) {
            const double angle = 2 * pi * four.number[k] * hz / sample_rate;
            const double shrink = std::exp(-four.decay[k] / sample_rate);
            // Above, the pointer lies flat and is not heard, until it may turn again.
            const bool above = four.number[k] * hz >= highest_partial_hz;
            if (above) {
                four.across[k] = std::hypot(four.across[k], four.up[k]);
                four.up[k] = 0;
            }
            four.step_across[k] = above ? shrink : shrink * std::cos(angle);
            four.step_up[k] = above ? 0 : shrink * std::sin(angle);
        }
}

void SoundingTone::add_to(std::span<float> samples) {
    const std::span<float> now =
        samples.first(std::min(samples.size(), static_cast<std::size_t>(frames_ - at_)));
    std::vector<double> sum(now.size(), 0.0);
    for (Four& four : partials_)
        for (double& sample : sum)
            sample += turn(four);
    for (std::size_t i = 0; i < now.size(); ++i) {
        const double time = static_cast<double>(at_ + static_cast<std::int64_t>(i)) / sample_rate;
        now[i] += static_cast<float>(level_ * shape(time) * sum[i]);
    }
    at_ += static_cast<std::int64_t>(now.size());
    std::erase_if(partials_, is_silent<Four>);
}

void add_plucked(std::span<float> samples, const Tone& tone) {
    SoundingTone::plucked(tone).add_to(samples);
}

void add_drone(std::span<float> samples, const Tone& tone) {
    SoundingTone::drone(tone).add_to(samples);
}

} // namespace sectio::sound
