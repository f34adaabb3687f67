#include <sectio/measure/drone_series.hpp>
#include <sectio/measure/statistics.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace sectio::measure {

namespace {

/// A partial is a drone's where it lies so near a multiple of its pitch.
constexpr double same_ratio = 0.006;
constexpr std::size_t most_strings = 4, most_numbers = 40;

std::size_t multiples(const std::vector<Peak>& peaks, double pitch) {
    return static_cast<std::size_t>(std::count_if(
        peaks.begin(), peaks.end(), [&](const Peak& p) { return on_series(p.hz, pitch); }));
}

/// The pitch whose lowest peak this is: half or a third of it where its own partial does not stand
/// out, and three of those whose numbers are no multiples of two or three do, and strongly.
double lowest_pitch(const Peak& lowest, const std::vector<Peak>& peaks) {
    constexpr double least = 0.03; // 15 dB below
    for (const double part : {2.0, 3.0}) {
        int found = 0;
        for (const double number : {5.0, 7.0, 11.0, 13.0}) {
            const double hz = number * lowest.hz / part;
            found += std::any_of(peaks.begin(), peaks.end(), [&](const Peak& p) {
                return std::abs(p.hz / hz - 1) < same_ratio && p.power > least * lowest.power;
            });
        }
        if (found >= 3)
            return lowest.hz / part;
    }
    return lowest.hz;
}

} // namespace

bool on_series(double hz, double pitch) {
    const double number = std::max(1.0, std::round(hz / pitch));
    return number <= most_numbers && std::abs(hz / pitch / number - 1) < same_ratio;
}

std::vector<double> pitches_in(std::vector<Peak> peaks) {
    constexpr double strong = 1e-3;
    std::vector<double> pitches;
    double most = 0;
    for (const Peak& peak : peaks)
        most = std::max(most, peak.power);
    const std::vector<Peak> all = peaks;
    while (!peaks.empty() && pitches.size() < most_strings) {
        const Peak lowest = peaks.front();
        const double pitch = lowest_pitch(lowest, all);
        const bool is_pitch = lowest.power > strong * most && multiples(all, pitch) >= 3;
        if (is_pitch)
            pitches.push_back(pitch);
        std::erase_if(peaks, [&](const Peak& p) {
            return p.hz == lowest.hz || (is_pitch && on_series(p.hz, pitch));
        });
    }
    std::sort(pitches.begin(), pitches.end());
    return pitches;
}

std::vector<double> found_near(const std::vector<Peak>& peaks, const std::vector<double>& asked) {
    constexpr double near = 0.03; // half a semitone
    std::vector<double> pitches;
    for (const double hz : asked) {
        const Peak* best = nullptr;
        for (const Peak& peak : peaks)
            if (std::abs(peak.hz / hz - 1) < near && (!best || peak.power > best->power))
                best = &peak;
        pitches.push_back(best ? best->hz : hz);
    }
    return pitches;
}

std::vector<Peak> own_peaks(double pitch, const std::vector<double>& pitches,
                            const std::vector<Peak>& peaks) {
    std::vector<Peak> all, own;
    for (const Peak& peak : peaks) {
        if (!on_series(peak.hz, pitch))
            continue;
        all.push_back(peak);
        if (std::all_of(pitches.begin(), pitches.end(),
                        [&](double other) { return other == pitch || !on_series(peak.hz, other); }))
            own.push_back(peak);
    }
    return own.empty() ? all : own;
}

DronePitch measured_pitch(const std::vector<Peak>& peaks, double about, double window_s) {
    const double least_hz = 0.1 / window_s;
    double weights = 0, sum = 0, squares = 0;
    int count = 0;
    for (const Peak& peak : peaks) {
        const double n = std::round(peak.hz / about), off = peak.hz / n - about;
        weights += n * n, sum += n * n * off, squares += n * n * off * off, ++count;
    }
    if (count == 0)
        return {about, cents_per_e * least_hz / about};
    const double mean = sum / weights;
    const double scatter2 = count > 1 ? (squares - weights * mean * mean) / (count - 1) : 0;
    const double half = std::sqrt(std::max(scatter2, least_hz * least_hz / 4) / weights);
    return {about + mean, student_95(count - 1) * cents_per_e * half / about};
}

} // namespace sectio::measure
