#include <sectio/measure/loudest_moment.hpp>
#include <sectio/measure/partials.hpp>

#include <algorithm>

namespace sectio::measure {

void LoudestMoment::watch(float level, std::span<const float> sound) {
    constexpr float anew = 3.16F; // 5 dB
    if (level > level_) {
        level_ = softest_since_ = level, frame_ = watched_;
        sound_.clear();
    }
    softest_since_ = level > anew * softest_since_ ? 0 : std::min(level, softest_since_);
    if (watched_ - frame_ < most_frames_ && softest_since_ > 0)
        sound_.insert(sound_.end(), sound.begin(), sound.end());
    ++watched_;
}

/// Peaks of a single spectrum: of noise, one bin in a thousand stands 11 dB over what most have.
bool LoudestMoment::tonal(double rate, double band_hz) const {
    constexpr double tonal_db = 20, window_periods = 16;
    SpectrumMaker maker;
    const double about_hz = window_periods * rate / (static_cast<double>(sound_.size()) / 4 + 1);
    const NoteSpectra spectra = maker.spectra(sound_, rate, band_hz, about_hz);
    if (spectra.frames.empty())
        return false;
    const std::vector<Peak> peaks = peaks_of(spectra);
    return std::any_of(peaks.begin(), peaks.end(),
                       [](const Peak& p) { return p.above_noise_db > tonal_db; });
}

} // namespace sectio::measure
