#include <sectio/sound/tone.hpp>

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

namespace sectio::sound {

namespace {

using std::numbers::pi;

/// Partials above this are left out, well below half the sample rate.
constexpr double highest_partial_hz = 16'000;

struct Partial {
    double hz;
    double strength; ///< at the beginning
    double decay;    ///< a second, natural logarithm
};

/// Half a cosine from 0 at 0 to 1 at `seconds` and beyond.
double rise(double time, double seconds) {
    return time >= seconds ? 1 : (1 - std::cos(pi * time / seconds)) / 2;
}

/// How strong a tone is at `time`: it swells and fades within these seconds of its ends.
struct Shape {
    double seconds, swell, fade;
    double at(double time) const { return rise(time, swell) * rise(seconds - time, fade); }
};

/// Strengths that together make at most 1.
void bring_to_one(std::vector<Partial>& partials) {
    double sum = 0;
    for (const Partial& partial : partials)
        sum += std::abs(partial.strength);
    for (Partial& partial : partials)
        partial.strength /= sum;
}

std::vector<Partial> string_partials(double hz) {
    // The fundamental of 220 Hz loses 60 dB in some 5 s; a partial of 5 kHz in half a second.
    constexpr double air = 1.2, inside = 1.2e-8;
    std::vector<Partial> partials;
    for (int n = 1; n == 1 || n * hz < highest_partial_hz; ++n) {
        const double turn = 2 * pi * n * hz;
        partials.push_back({n * hz, std::sin(n * pi / 5) / n, air + inside * turn * turn});
    }
    bring_to_one(partials);
    return partials;
}

std::vector<Partial> drone_partials(double hz) {
    std::vector<Partial> partials;
    for (int n = 1; n == 1 || (n <= 12 && n * hz < highest_partial_hz); ++n)
        partials.push_back({n * hz, 1.0 / n, 0});
    bring_to_one(partials);
    return partials;
}

std::size_t count_of(std::span<float> samples, double seconds) {
    return std::min(samples.size(), static_cast<std::size_t>(std::lround(seconds * sample_rate)));
}

/// One partial: a pointer that turns by the same angle and shrinks by the same part each sample.
void add_partial(std::span<double> sum, const Partial& partial) {
    const double angle = 2 * pi * partial.hz / sample_rate;
    const std::complex<double> step = std::polar(std::exp(-partial.decay / sample_rate), angle);
    std::complex<double> pointer = partial.strength;
    for (double& sample : sum) {
        sample += pointer.imag();
        pointer = {pointer.real() * step.real() - pointer.imag() * step.imag(),
                   pointer.real() * step.imag() + pointer.imag() * step.real()};
    }
}

void add_tone(std::span<float> samples, const std::vector<Partial>& partials, const Tone& tone,
              const Shape& shape) {
    std::vector<double> sum(count_of(samples, tone.seconds), 0.0);
    for (const Partial& partial : partials)
        add_partial(sum, partial);
    for (std::size_t i = 0; i < sum.size(); ++i)
        samples[i] += static_cast<float>(tone.level * shape.at(static_cast<double>(i) / sample_rate)
                                         * sum[i]);
}

} // namespace

void add_plucked(std::span<float> samples, const Tone& tone) {
    add_tone(samples, string_partials(tone.hz), tone, {tone.seconds, 0.002, 0.05});
}

void add_drone(std::span<float> samples, const Tone& tone) {
    const double turn = std::min(2.0, tone.seconds / 2);
    add_tone(samples, drone_partials(tone.hz), tone, {tone.seconds, turn, turn});
}

} // namespace sectio::sound
