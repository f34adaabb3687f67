#include <sectio/measure/drone_series.hpp>
#include <sectio/measure/other_sounds.hpp>

#include <algorithm>
#include <cmath>

namespace sectio::measure {

namespace {

/// Leaves out the peaks of which more than `most` is hidden, and adds their frequencies to
/// `covered`.
void leave_out_hidden(std::vector<Peak>& peaks, double most, std::vector<double>& covered) {
    for (const Peak& peak : peaks)
        if (peak.hidden > most)
            covered.push_back(peak.hz);
    std::erase_if(peaks, [most](const Peak& peak) { return peak.hidden > most; });
}

} // namespace

std::vector<double> tell_drone_apart(std::vector<Peak>& peaks, const NoteSpectra& spectra,
                                     const Drone& drone) {
    constexpr double same_place_bins = 2.5, most_hidden = 0.6;
    if (drone.empty())
        return {};
    const double scale = std::pow(static_cast<double>(spectra.window) / 4, 2);
    std::vector<double> measured;
    for (const DronePartial& partial : drone.partials)
        measured.push_back(
            static_cast<double>(
                spectra.power[static_cast<std::size_t>(std::lround(spectra.bin(partial.hz)))])
            / scale);
    const std::vector<double> now = drone.now(measured);
    for (std::size_t j = 0; j < now.size(); ++j)
        for (Peak& peak : peaks)
            if (std::abs(spectra.bin(peak.hz - drone.partials[j].hz)) < same_place_bins)
                peak.hidden = std::max(peak.hidden, std::sqrt(scale * now[j] / peak.power));
    std::vector<double> covered;
    leave_out_hidden(peaks, most_hidden, covered);
    return covered;
}

std::size_t tell_old_apart(std::vector<Peak>& peaks, const NoteSpectra& spectra,
                           const std::vector<float>& old, double most_hidden,
                           std::vector<double>& covered) {
    const std::size_t before = covered.size();
    for (Peak& peak : peaks) {
        const auto bin = static_cast<std::size_t>(std::lround(spectra.bin(peak.hz)));
        const double hidden = std::sqrt(static_cast<double>(old[bin]) / peak.power);
        peak.hidden = std::max(peak.hidden, hidden);
    }
    leave_out_hidden(peaks, most_hidden, covered);
    return covered.size() - before;
}

void leave_to_drone(PartialSet& set, const std::vector<Peak>& peaks, const Drone& drone) {
    const auto is_drones = [&](double hz) {
        return std::any_of(drone.pitches.begin(), drone.pitches.end(),
                           [&](const DronePitch& d) { return on_series(hz, d.hz); });
    };
    if (set.partials.empty() || is_drones(set.place(1)))
        return;
    for (const Peak& peak : peaks) {
        const bool own = std::any_of(set.partials.begin(), set.partials.end(),
                                     [&](const Partial& p) { return p.peak.hz == peak.hz; });
        set.foreign_power -= !own && is_drones(peak.hz) ? peak.power : 0;
    }
    set.foreign_power = std::max(0.0, set.foreign_power);
}

bool is_multiple_of(const PartialSet& set, const PartialSet& other) {
    constexpr double same_place = 0.01;
    if (set.partials.empty() || !set.has(1))
        return false;
    const double ratio = set.place(1) / other.place(1), times = std::round(ratio);
    return times > 1 && std::abs(ratio / times - 1) < same_place;
}

} // namespace sectio::measure
