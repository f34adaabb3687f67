#include <sectio/measure/pitch_histogram.hpp>

#include <algorithm>
#include <cmath>

namespace sectio::measure {

namespace {

constexpr double spread_cents = 10;
constexpr long reach = 40; ///< bins: four times the spread
constexpr long least_distance = 30;
constexpr long octave = 1200;

} // namespace

std::size_t PitchHistogram::wrapped(long bin) const {
    const long size = static_cast<long>(density_.size());
    return static_cast<std::size_t>(folded_ ? ((bin % size) + size) % size
                                            : std::clamp(bin, 0L, size - 1));
}

PitchHistogram::PitchHistogram(const std::vector<SoundedPitch>& pitches, bool folded)
    : folded_(folded) {
    double low = 1e9, high = -1e9;
    for (const SoundedPitch& p : pitches)
        low = std::min(low, p.cents), high = std::max(high, p.cents);
    if (pitches.empty())
        return;
    first_ = folded ? 0 : std::floor(low) - reach;
    const auto size = folded ? octave : static_cast<long>(std::ceil(high) - first_) + reach + 1;
    raw_.resize(static_cast<std::size_t>(size));
    density_.resize(raw_.size());
    for (const SoundedPitch& p : pitches)
        raw_[wrapped(std::lround(p.cents - first_))] += p.seconds;
    std::vector<double> kernel;
    double sum = 0;
    for (long i = -reach; i <= reach; ++i) {
        kernel.push_back(std::exp(-0.5 * std::pow(static_cast<double>(i) / spread_cents, 2)));
        sum += kernel.back();
    }
    for (long bin = 0; bin < size; ++bin)
        for (long i = -reach; i <= reach && raw_[static_cast<std::size_t>(bin)] > 0; ++i)
            if (folded || (bin + i >= 0 && bin + i < size))
                density_[wrapped(bin + i)] += raw_[static_cast<std::size_t>(bin)]
                                              * kernel[static_cast<std::size_t>(i + reach)] / sum;
}

double PitchHistogram::at(double cents) const {
    return density_.empty() ? 0 : density_[wrapped(std::lround(cents - first_))];
}

bool PitchHistogram::is_peak(std::size_t bin) const {
    const long middle = static_cast<long>(bin);
    for (long i = 1; i <= least_distance; ++i)
        if (density_[wrapped(middle - i)] >= density_[bin]
            || density_[wrapped(middle + i)] > density_[bin])
            return false;
    return true;
}

std::vector<HistogramPeak> PitchHistogram::peaks(double part) const {
    std::vector<HistogramPeak> found;
    if (density_.empty())
        return found;
    const double highest = *std::max_element(density_.begin(), density_.end());
    for (std::size_t bin = 0; bin < density_.size(); ++bin)
        if (density_[bin] >= part * highest && is_peak(bin)) {
            const double a = density_[wrapped(static_cast<long>(bin) - 1)], b = density_[bin],
                         c = density_[wrapped(static_cast<long>(bin) + 1)];
            const double offset = a - 2 * b + c < 0 ? 0.5 * (a - c) / (a - 2 * b + c) : 0;
            found.push_back({first_ + static_cast<double>(bin) + offset, 0});
        }
    for (std::size_t bin = 0; bin < raw_.size() && !found.empty(); ++bin) {
        const auto away = [&](const HistogramPeak& p) {
            const double d = std::abs(p.cents - first_ - static_cast<double>(bin));
            return folded_ ? std::min(d, octave - d) : d;
        };
        std::min_element(found.begin(), found.end(), [&](const auto& x, const auto& y) {
            return away(x) < away(y);
        })->seconds += raw_[bin];
    }
    return found;
}

} // namespace sectio::measure
