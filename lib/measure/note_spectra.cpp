#include <sectio/measure/note_spectra.hpp>

#include <algorithm>
#include <cmath>

namespace sectio::measure {

namespace {

constexpr double wanted_periods = 16;
constexpr double least_periods = 4;
/// In windows of fewer periods the skirts of neighbouring partials cover the noise between them, so
/// that true partials seem to drown in it. A short low note has fewer frames instead, as long as
/// three windows lie after one another.
constexpr double clear_periods = 6, most_of_note = 1.0 / 3;
/// Bins on either side among which the noise is looked for: two distances of partials.
constexpr std::size_t noise_reach = 32;
/// The partials fill less than half of the bins, so this quantile lies between them.
constexpr double noise_quantile = 0.4;
/// The sky over half of a note's frames: a note has at least this many where it is long enough.
constexpr std::size_t wanted_hops = 12;
/// Sound before a note that is shorter than this part of the note's windows tells nothing (our
/// choice).
constexpr std::size_t least_part_of_window = 4;

std::size_t window_for(std::size_t samples, double rate, double about_hz, double least_s) {
    const double period = rate / about_hz;
    const double length = static_cast<double>(samples);
    const double wanted = std::max(wanted_periods * period, least_s * rate);
    const double affordable =
        std::max({least_periods * period, std::min(clear_periods * period, most_of_note * length),
                  4 * length / (wanted_hops + 4)});
    const std::size_t size = quick_size(static_cast<std::size_t>(std::min(wanted, affordable)));
    return size <= samples ? size : 0;
}

} // namespace

void add_noise(NoteSpectra& spectra) {
    const std::size_t bins = spectra.bins;
    spectra.noise.resize(bins);
    std::vector<float> near;
    constexpr std::size_t stride = 8; // the floor is smooth: one value for eight bins
    for (std::size_t begin = 0; begin < bins; begin += stride) {
        const std::size_t middle = std::min(begin + stride / 2, bins - 1);
        const std::size_t from = middle > noise_reach ? middle - noise_reach : 1;
        const std::size_t to = std::min(middle + noise_reach, bins - 1);
        near.assign(spectra.power.begin() + static_cast<std::ptrdiff_t>(from),
                    spectra.power.begin() + static_cast<std::ptrdiff_t>(to));
        auto at = near.begin()
                  + static_cast<std::ptrdiff_t>(noise_quantile * static_cast<double>(near.size()));
        std::nth_element(near.begin(), at, near.end());
        std::fill(spectra.noise.begin() + static_cast<std::ptrdiff_t>(begin),
                  spectra.noise.begin()
                      + static_cast<std::ptrdiff_t>(std::min(begin + stride, bins)),
                  *at);
    }
}

SpectrumMaker::Plan& SpectrumMaker::plan(std::size_t size) {
    auto found = plans_.find(size);
    if (found == plans_.end())
        found = plans_.emplace(size, Plan{Fourier(size), hann_window(size)}).first;
    return found->second;
}

NoteSpectra SpectrumMaker::spectra(std::span<const float> samples, double rate, double band_hz,
                                   double about_hz, double least_s) {
    NoteSpectra result{rate, band_hz, window_for(samples.size(), rate, about_hz, least_s), 0, 0, {},
                       {},   {}};
    if (result.window == 0)
        return result;
    Plan& made = plan(result.window);
    result.hop = result.window / 4;
    result.bins = result.window / 2 + 1;
    result.power.assign(result.bins, 0.0F);
    result.frames.resize((samples.size() - result.window) / result.hop + 1);
    std::vector<Lanes> windowed(result.window);
    std::vector<ComplexLanes> spectrum(result.bins);
    for (std::size_t first = 0; first < result.frames.size(); first += lanes) {
        const std::size_t count = std::min(lanes, result.frames.size() - first);
        for (std::size_t lane = 0; lane < count; ++lane)
            for (std::size_t i = 0; i < result.window; ++i)
                windowed[i][lane] = samples[(first + lane) * result.hop + i] * made.window[i];
        made.fourier.forward(windowed.data(), spectrum.data());
        for (std::size_t lane = 0; lane < count; ++lane)
            for (std::size_t k = 0; k < result.bins; ++k) {
                const std::complex<float> value(spectrum[k].re[lane], spectrum[k].im[lane]);
                result.frames[first + lane].push_back(value);
                result.power[k] += power_of(value);
            }
    }
    for (float& value : result.power)
        value /= static_cast<float>(result.frames.size());
    add_noise(result);
    return result;
}

std::vector<float> SpectrumMaker::last_power(std::span<const float> samples, std::size_t window) {
    const std::size_t size = std::min(samples.size(), window);
    if (size < window / least_part_of_window)
        return {};
    const std::vector<float> shape = size == window ? plan(window).window : hann_window(size);
    std::vector<Lanes> windowed(window);
    std::vector<ComplexLanes> spectrum(window / 2 + 1);
    for (std::size_t i = 0; i < size; ++i)
        windowed[i][0] = samples[samples.size() - size + i] * shape[i];
    plan(window).fourier.forward(windowed.data(), spectrum.data());
    const auto scale =
        static_cast<float>(std::pow(static_cast<double>(window) / static_cast<double>(size), 2));
    std::vector<float> power;
    for (const ComplexLanes& value : spectrum)
        power.push_back(scale * power_of(value)[0]);
    return power;
}

} // namespace sectio::measure
