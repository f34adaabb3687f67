#include <sectio/measure/drone.hpp>
#include <sectio/measure/drone_series.hpp>
#include <sectio/measure/statistics.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace sectio::measure {

namespace {

constexpr double window_s = 0.35, least_seconds = 2.5;
constexpr double level_db = 1.5, lowest_db = -170;
constexpr double standing_part = 0.25; ///< of the time a drone may be softer than it is taken for
/// Softer than this beside the whole, what stands is reverberation or hum.
constexpr double least_power = 1e-3;
constexpr std::ptrdiff_t neighbours = 3;

/// A melody's partials come and go: what has so little of the power over the drone is none.
constexpr double least_melody = 0.003;

/// The least but one of each value's neighbours and itself.
std::vector<double> least_but_one(const std::vector<double>& values) {
    const auto size = static_cast<std::ptrdiff_t>(values.size());
    std::vector<double> result;
    for (std::ptrdiff_t i = 0; i < size; ++i) {
        std::vector<double> near(values.begin() + std::max<std::ptrdiff_t>(0, i - neighbours),
                                 values.begin() + std::min(size, i + neighbours + 1));
        std::sort(near.begin(), near.end());
        result.push_back(near[std::min<std::size_t>(1, near.size() - 1)]);
    }
    return result;
}

} // namespace

std::vector<double> Drone::now(const std::vector<double>& measured) const {
    std::vector<double> growth, result;
    for (std::size_t i = 0; i < partials.size(); ++i)
        growth.push_back(measured[i] / partials[i].power);
    const std::vector<double> grown = least_but_one(growth);
    for (std::size_t i = 0; i < partials.size(); ++i) {
        const DronePartial& p = partials[i];
        result.push_back(std::min(measured[i], std::min(grown[i] * p.power, p.most) * p.swing));
    }
    return result;
}

double Drone::most() const {
    double sum = 0;
    for (const DronePartial& partial : partials)
        sum += partial.most / 2;
    return sum;
}

DroneFinder::DroneFinder(double rate, double band_hz)
    : rate_(rate), band_hz_(band_hz),
      fourier_(quick_size(static_cast<std::size_t>(rate * window_s))),
      window_(hann_window(fourier_.size())), windowed_(fourier_.size()),
      spectrum_(fourier_.size() / 2 + 1), counts_(spectrum_.size()), sums_(spectrum_.size()) {}

void DroneFinder::feed(std::span<const float> samples) {
    waiting_.insert(waiting_.end(), samples.begin(), samples.end());
    const std::size_t hop = window_.size() / 2;
    std::size_t at = 0;
    while (at + window_.size() <= waiting_.size()) {
        const std::size_t count = std::min(lanes, (waiting_.size() - at - hop) / hop);
        look(waiting_.data() + at, count);
        at += count * hop;
    }
    waiting_.erase(waiting_.begin(), waiting_.begin() + static_cast<std::ptrdiff_t>(at));
}

/// At `count` windows, half of each of which the next one has too.
void DroneFinder::look(const float* samples, std::size_t count) {
    for (std::size_t lane = 0; lane < count; ++lane)
        for (std::size_t i = 0; i < window_.size(); ++i)
            windowed_[i][lane] = samples[lane * window_.size() / 2 + i] * window_[i];
    fourier_.forward(windowed_.data(), spectrum_.data());
    const double scale = std::pow(4 / static_cast<double>(window_.size()), 2);
    const auto level_of = [](double power) {
        const double level = (10 * std::log10(power + 1e-18) - lowest_db) / level_db;
        return static_cast<std::size_t>(std::clamp(level, 0.0, levels - 1.0));
    };
    std::array<double, lanes> totals{};
    for (std::size_t k = 0; k < spectrum_.size(); ++k) {
        const Lanes powers = power_of(spectrum_[k]);
        for (std::size_t lane = 0; lane < count; ++lane) {
            const double power = scale * static_cast<double>(powers[lane]);
            sums_[k] += power;
            totals[lane] += power;
            ++counts_[k][level_of(power)];
        }
    }
    for (std::size_t lane = 0; lane < count; ++lane)
        ++totals_[level_of(totals[lane])];
    looks_ += count;
}

NoteSpectra DroneFinder::blank() const {
    NoteSpectra spectra{rate_, band_hz_, window_.size(), window_.size() / 2, spectrum_.size(), {},
                        {},    {}};
    spectra.power.resize(spectra.bins);
    return spectra;
}

NoteSpectra DroneFinder::standing(double part_of_time) const {
    NoteSpectra spectra = blank();
    const double wanted = part_of_time * static_cast<double>(looks_);
    for (std::size_t k = 0; k < spectra.bins; ++k) {
        double seen = 0;
        std::size_t level = 0;
        while (level + 1 < levels && seen + counts_[k][level] <= wanted)
            seen += counts_[k][level++];
        // Within the level by its part, so that neighbouring bins keep their order.
        const double part = (wanted - seen) / std::max(1.0, static_cast<double>(counts_[k][level]));
        spectra.power[k] = static_cast<float>(
            std::pow(10, (lowest_db + level_db * (static_cast<double>(level) + part)) / 10));
    }
    add_noise(spectra);
    return spectra;
}

NoteSpectra DroneFinder::mean() const {
    NoteSpectra spectra = blank();
    for (std::size_t k = 0; k < spectra.bins; ++k)
        spectra.power[k] = static_cast<float>(sums_[k] / static_cast<double>(looks_));
    add_noise(spectra);
    return spectra;
}

/// Whether other partials come and go over what stands.
bool DroneFinder::moves_over(const Drone& drone) const {
    constexpr double clear_bins = 4;
    const NoteSpectra spectra = mean();
    double all = 0, free = 0, standing = 0;
    for (const DronePartial& partial : drone.partials)
        standing += partial.power;
    for (const Peak& peak : peaks_of(spectra)) {
        const bool hidden =
            std::any_of(drone.partials.begin(), drone.partials.end(), [&](const DronePartial& p) {
                return std::abs(p.hz - peak.hz) < spectra.hertz(clear_bins);
            });
        all += peak.power;
        free += hidden ? 0 : peak.power;
    }
    return free > least_melody * all && standing > least_power * all;
}

/// The most of each partial by how its levels lie apart between a quarter of the time and half or
/// three quarters of it: a level that sinks evenly, as a plucked string's does, begins three times
/// as far above the lower, or one and a half times. Notes of the melody count less where the less
/// counts.
void DroneFinder::add_swings(Drone& drone) const {
    if (drone.empty())
        return;
    const NoteSpectra low = standing(standing_part), middle = standing(0.5),
                      high = standing(1 - standing_part);
    std::vector<double> swings, halves;
    for (const DronePartial& partial : drone.partials) {
        const auto bin = static_cast<std::size_t>(std::lround(low.bin(partial.hz)));
        const auto beside_low = [&](const NoteSpectra& spectra) {
            return static_cast<double>(spectra.power[bin]) / static_cast<double>(low.power[bin]);
        };
        swings.push_back(beside_low(high));
        halves.push_back(beside_low(middle));
    }
    const double usual = median(swings);
    const std::vector<double> of_most = least_but_one(swings), of_half = least_but_one(halves);
    for (std::size_t i = 0; i < swings.size(); ++i) {
        DronePartial& partial = drone.partials[i];
        partial.swing = std::max(1.0, swings[i] / usual);
        partial.most = partial.power * std::min(std::pow(of_most[i], 1.5), std::pow(of_half[i], 3));
    }
}

/// What part of the time, counted from the softest moment, `part` of the time that sounds begins
/// with: in silence no drone has to stand.
double DroneFinder::sounding(double part) const {
    constexpr double silent_db = 30, loud_part = 0.75;
    std::size_t seen = 0, loud = 0;
    while (loud + 1 < levels
           && static_cast<double>(seen += totals_[loud]) <= loud_part * static_cast<double>(looks_))
        ++loud;
    const auto below = static_cast<std::ptrdiff_t>(
        loud - std::min(loud, static_cast<std::size_t>(silent_db / level_db)));
    const auto silent = std::accumulate(totals_.begin(), totals_.begin() + below, std::size_t{0});
    return part + (1 - part) * static_cast<double>(silent) / static_cast<double>(looks_);
}

/// Leaves out what is no string of its own, and notes of the melody that come again and again: most
/// partials of a drone stand nine tenths of the time within 20 dB of what they have half the time,
/// or within 30 dB where nothing else stands.
void DroneFinder::keep_standing(std::vector<double>& pitches,
                                const std::vector<Peak>& peaks) const {
    constexpr double most_fall = 100, most_fall_alone = 1000, nearly_all = 0.98, own_part = 0.03,
                     nearly_always = 0.1;
    const NoteSpectra low = standing(sounding(nearly_always)), usual = standing(sounding(0.5));
    double all = 0;
    for (const Peak& peak : peaks)
        all += peak.power;
    const std::vector<double> found = pitches;
    std::erase_if(pitches, [&](double pitch) {
        double power = 0;
        std::vector<double> falls;
        for (const Peak& peak : own_peaks(pitch, found, peaks)) {
            const auto bin = static_cast<std::size_t>(std::lround(low.bin(peak.hz)));
            falls.push_back(static_cast<double>(usual.power[bin])
                            / static_cast<double>(low.power[bin]));
            power += peak.power;
        }
        const double most = power > nearly_all * all ? most_fall_alone : most_fall;
        return power < own_part * all || median(falls) > most;
    });
}

Drone DroneFinder::found(const std::vector<double>& asked) const {
    Drone drone;
    const double seconds = static_cast<double>(looks_ * window_.size()) / 2 / rate_;
    if (looks_ == 0 || (asked.empty() && seconds < least_seconds))
        return drone;
    const std::vector<Peak> peaks = peaks_of(standing(standing_part));
    std::vector<double> pitches = asked.empty() ? pitches_in(peaks) : found_near(peaks, asked);
    if (asked.empty())
        keep_standing(pitches, peaks);
    for (const Peak& peak : peaks)
        if (std::any_of(pitches.begin(), pitches.end(),
                        [&](double pitch) { return on_series(peak.hz, pitch); }))
            drone.partials.push_back({.hz = peak.hz, .power = peak.power});
    for (const double pitch : pitches)
        drone.pitches.push_back(measured_pitch(own_peaks(pitch, pitches, peaks), pitch, window_s));
    add_swings(drone);
    return !asked.empty() || moves_over(drone) ? drone : Drone{};
}

} // namespace sectio::measure
