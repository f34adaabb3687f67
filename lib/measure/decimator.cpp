#include <sectio/measure/decimator.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace sectio::measure {

namespace {

constexpr int least_rate = 14'000;
constexpr double stopband_db = 80;
constexpr double transition = 0.2; ///< of the new rate, from 0.4 to 0.6
constexpr std::size_t sums_at_once = 16;

/// Kaiser's filter: windowed sinc with half its pass at half of the new rate.
std::vector<float> kaiser_taps(std::size_t factor, std::size_t half) {
    const double beta = 0.1102 * (stopband_db - 8.7);
    std::vector<double> taps(2 * half + 1);
    double sum = 0;
    for (std::size_t i = 0; i < taps.size(); ++i) {
        const double x = static_cast<double>(i) - static_cast<double>(half);
        const double r = half == 0 ? 0.0 : x / static_cast<double>(half);
        const double phase = std::numbers::pi * x / static_cast<double>(factor);
        taps[i] = (x == 0 ? 1.0 : std::sin(phase) / phase)
                  * std::cyl_bessel_i(0.0, beta * std::sqrt(std::max(0.0, 1 - r * r)));
        sum += taps[i];
    }
    std::vector<float> scaled;
    for (double tap : taps)
        scaled.push_back(static_cast<float>(tap / sum));
    scaled.resize((scaled.size() + sums_at_once - 1) / sums_at_once * sums_at_once);
    return scaled;
}

/// Independent sums, which the compiler may compute side by side.
float dot(const float* a, const float* b, std::size_t size) {
    std::array<float, sums_at_once> sums{};
    for (std::size_t i = 0; i < size; i += sums_at_once)
        for (std::size_t j = 0; j < sums_at_once; ++j)
            sums[j] += a[i + j] * b[i + j];
    float sum = 0;
    for (float s : sums)
        sum += s;
    return sum;
}

/// Half the number of taps (Kaiser 1974: (A - 8) / (2.285 Δω) taps for A dB).
std::size_t half_length(std::size_t factor) {
    if (factor == 1)
        return 0;
    const double width = 2 * std::numbers::pi * transition / static_cast<double>(factor);
    return static_cast<std::size_t>(std::ceil((stopband_db - 8) / (2.285 * width) / 2));
}

} // namespace

std::size_t decimation_for(int rate) {
    return static_cast<std::size_t>(std::max(1, rate / least_rate));
}

double usable_band(std::size_t factor) {
    return factor == 1 ? 0.48 : 0.4;
}

Decimator::Decimator(std::size_t factor)
    : factor_(factor), taps_(kaiser_taps(factor, half_length(factor))),
      memory_(half_length(factor), 0.0F), half_(half_length(factor)) {}

void Decimator::feed(std::span<const float> input, std::vector<float>& output) {
    if (factor_ == 1) {
        output.insert(output.end(), input.begin(), input.end());
        return;
    }
    memory_.insert(memory_.end(), input.begin(), input.end());
    std::size_t at = 0;
    for (; at + taps_.size() <= memory_.size(); at += factor_)
        output.push_back(dot(memory_.data() + at, taps_.data(), taps_.size()));
    memory_.erase(memory_.begin(), memory_.begin() + static_cast<std::ptrdiff_t>(at));
}

void Decimator::finish(std::vector<float>& output) {
    if (factor_ == 1)
        return;
    // All that is left in memory but the first half (already passed) still has its own moment.
    const std::size_t moments = memory_.size() > half_ ? memory_.size() - half_ : 0;
    const std::size_t count = (moments + factor_ - 1) / factor_;
    const std::vector<float> zeros(taps_.size(), 0.0F);
    const std::size_t wanted = output.size() + count;
    feed(zeros, output);
    output.resize(std::min(output.size(), wanted));
}

} // namespace sectio::measure
