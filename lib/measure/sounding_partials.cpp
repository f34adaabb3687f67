#include <sectio/measure/frame_pitch.hpp>
#include <sectio/measure/phase_slope.hpp>
#include <sectio/measure/sounding_partials.hpp>
#include <sectio/measure/statistics.hpp>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numbers>
#include <utility>

namespace sectio::measure {

namespace {

constexpr double range_db = 60;
constexpr std::size_t most_listed = 40;
/// Phases keep to a line so well, where they are a partial's; the second where the pitch
/// seems to move.
constexpr double steady_coherence = 0.6, sure_coherence = 0.97;
/// By which a maximum may lie off its place, in bins.
constexpr double doubtful_bins = 0.1;

/// Whether the peak is no higher than what the window itself puts beside a stronger one: Hann's
/// transform falls as 1 / (π b (b² − 1)) over b bins. Sounds that die away have broader skirts: 12
/// dB are added, which is our choice.
bool is_leakage(const Peak& peak, const std::vector<Peak>& peaks, const NoteSpectra& spectra) {
    constexpr double margin = 4, itself = 1.5;
    return std::any_of(peaks.begin(), peaks.end(), [&](const Peak& other) {
        const double bins = std::abs(spectra.bin(other.hz - peak.hz));
        const double skirt = margin / (std::numbers::pi * bins * (bins * bins - 1));
        return bins > itself && peak.power < other.power * skirt * skirt;
    });
}

/// Cents by which the sound at a partial's place may lie off its slope: what beats with it, and
/// half the distance to one that is not told apart.
double beside_cents(const Frequency& found, double seconds) {
    constexpr double part_of_ratio = 0.3, another = 0.25;
    const double ratio = std::min(1.0, std::sqrt(2 * found.swing2));
    const double apart_hz =
        ratio < another ? 0 : found.spread_hz * (1 + ratio * ratio) / (2 * ratio);
    return cents_per_e / found.hz * std::hypot(part_of_ratio * ratio / seconds, apart_hz);
}

/// A line through levels in decibels over seconds.
struct LevelLine {
    double first_db = 0; ///< at the first of them
    double slope = 0, half_width = 0;
};

/// By least squares; the slope's error as of values that hang together over a quarter of them, and
/// over three at the least, since windows overlap.
LevelLine line_through(const std::vector<double>& seconds, const std::vector<double>& levels) {
    constexpr double dependent = 3;
    const auto count = static_cast<double>(seconds.size());
    double t = 0, y = 0, tt = 0, ty = 0, squares = 0;
    for (std::size_t i = 0; i < seconds.size(); ++i)
        t += seconds[i] / count, y += levels[i] / count;
    for (std::size_t i = 0; i < seconds.size(); ++i)
        tt += std::pow(seconds[i] - t, 2), ty += (seconds[i] - t) * (levels[i] - y);
    LevelLine line{y + ty / tt * (seconds.front() - t), ty / tt, 0};
    std::vector<double> scores;
    for (std::size_t i = 0; i < seconds.size(); ++i) {
        const double rest = levels[i] - line.first_db - line.slope * (seconds[i] - seconds.front());
        scores.push_back((seconds[i] - t) * rest);
        squares += scores.back() * scores.back();
    }
    const double variance = std::max(long_run_variance(scores), dependent * squares);
    const int freedom = std::max(1, static_cast<int>(count / dependent) - 2);
    line.half_width = student_95(freedom) * std::sqrt(variance) / tt;
    return line;
}

/// What the window makes of the level of a sound that falls by so much: Hann's transform at an
/// imaginary frequency.
double lifted_db(double db_a_second, double window_s) {
    const double x = std::abs(db_a_second) * std::numbers::ln10 / 20 * window_s / 2;
    const double turns = x / std::numbers::pi;
    return x < 1e-3 ? 0 : 20 * std::log10(std::sinh(x) / x / (1 + turns * turns));
}

/// A partial in one frame: the local maximum near its place.
struct Moment {
    double seconds = 0, hz = 0, power = 0; ///< power as of a sinusoid of that frequency
};

Moment moment_of(const NoteSpectra& spectra, std::size_t frame, std::size_t bin) {
    constexpr std::size_t reach = 2;
    const auto power = [&](std::size_t k) {
        return static_cast<double>(power_of(spectra.frames[frame][k])) + 1e-30;
    };
    std::size_t top = bin;
    for (std::size_t k = std::max(bin, reach + 1) - reach; k <= bin + reach; ++k)
        if (k + 1 < spectra.bins && power(k) > power(top))
            top = k;
    const double offset = top_offset(power(top - 1), power(top), power(top + 1));
    const double lobe = hann_lobe(offset);
    return {static_cast<double>(frame * spectra.hop + spectra.window / 2) / spectra.rate,
            spectra.hertz(static_cast<double>(top) + offset), power(top) / (lobe * lobe)};
}

/// The frames about the loudest one in which the partial stands 10 dB out of the noise without a
/// break: of what sinks into it only the strong moments would be left.
std::vector<Moment> course_of(const NoteSpectra& spectra, double hz) {
    constexpr double above_noise = 10;
    const auto bin = static_cast<std::size_t>(std::lround(spectra.bin(hz)));
    const double noise = static_cast<double>(spectra.noise[bin]);
    std::vector<Moment> all;
    for (std::size_t m = 0; m < spectra.frames.size(); ++m)
        all.push_back(moment_of(spectra, m, bin));
    const auto below = [&](const Moment& m) { return m.power < above_noise * noise; };
    const auto top = std::max_element(
        all.begin(), all.end(), [](const Moment& a, const Moment& b) { return a.power < b.power; });
    const auto last = std::find_if(top, all.end(), below);
    const auto first = std::find_if(std::reverse_iterator(top), all.rend(), below).base();
    std::vector<Moment> course(first, std::max(first, last));
    for (Moment& moment : course)
        moment.power = std::max(moment.power - noise, noise);
    return course;
}

/// A partial that may be kept.
struct Found {
    SoundingPartial partial{};
    bool steady = true; ///< its phase keeps to a line
};

/// The frequency by the course of the phase; where that keeps to no line, as in a vibrato, the mean
/// of the maxima with what they wander.
Found with_frequency(const NoteSpectra& spectra, const Peak& peak,
                     const std::vector<Moment>& course, bool moves) {
    const double seconds = static_cast<double>(spectra.hop * spectra.frames.size()) / spectra.rate;
    const Frequency slope = PartialPhase(spectra, peak.hz).slope(0, spectra.frames.size());
    Found found;
    if (slope.variance > 0 && slope.coherence > (moves ? sure_coherence : steady_coherence)) {
        const double own = normal_95 * cents_per_e * std::sqrt(slope.variance) / slope.hz;
        found.partial.hz = slope.hz;
        found.partial.half_width_cents =
            std::hypot(own, beside_cents(slope, seconds), method_cents);
        return found;
    }
    double weight = 0, mean = 0, squares = 0;
    for (const Moment& moment : course)
        weight += moment.power, mean += moment.power * moment.hz;
    const double hz = mean / weight;
    for (const Moment& moment : course)
        squares += moment.power / weight * std::pow(moment.hz - hz, 2);
    const double deviation_hz = std::hypot(std::sqrt(squares), spectra.hertz(doubtful_bins));
    found.partial.hz = hz;
    found.partial.half_width_cents = moving_half_width(cents_per_e * deviation_hz / hz, seconds);
    found.steady = false;
    return found;
}

/// Adds the level at the start and the decay, if the line allows.
void add_level(SoundingPartial& partial, const std::vector<Moment>& course, double window_s) {
    constexpr double borne_db_s = 10, borne_db = 2;
    std::vector<double> seconds, levels;
    for (const Moment& moment : course)
        seconds.push_back(moment.seconds), levels.push_back(10 * std::log10(moment.power));
    const LevelLine line = line_through(seconds, levels);
    partial.level_db = line.first_db;
    if (line.half_width < std::max(borne_db_s, std::abs(line.slope)))
        partial.decay = Decay{-line.slope, line.half_width};
    if (line.half_width * window_s / 2 < borne_db)
        partial.level_db -= line.slope * window_s / 2 + lifted_db(line.slope, window_s);
}

/// The number of the partial that lies there in the note's series; 0 where none does.
int number_of(double partial_hz, const PartialSeries& note) {
    constexpr double near_cents = 25;
    if (note.hz <= 0)
        return 0;
    const PartialSet series{note.hz / std::sqrt(1 + note.inharmonicity), note.inharmonicity, {}};
    int number = 1;
    while (series.place(number + 1) - partial_hz < partial_hz - series.place(number))
        ++number;
    const double off = cents_above(partial_hz, series.place(number));
    return std::abs(off) < near_cents ? number : 0;
}

/// What is no partial of its own: the weaker of two beside one another of which one swings, and
/// what swings and is neither in the note's series nor, where there is no pitch, known well.
bool is_none(const Found& found, const std::vector<Found>& louder, bool has_pitch) {
    constexpr double beside = 60, well_known = 10; // cents
    const SoundingPartial& partial = found.partial;
    const bool swung = std::any_of(louder.begin(), louder.end(), [&](const Found& other) {
        const double cents = cents_above(other.partial.hz, partial.hz);
        const bool swings = !found.steady || !other.steady || other.partial.number > 0;
        return swings && std::abs(cents) < beside;
    });
    const bool doubtful =
        partial.number == 0
        && (partial.half_width_cents > well_known || (has_pitch && !found.steady));
    return swung || partial.hz < lowest_hz || doubtful;
}

/// Levels beside the strongest; those in range, rising.
std::vector<SoundingPartial> strongest(std::vector<Found> all, bool has_pitch) {
    std::sort(all.begin(), all.end(), [](const Found& a, const Found& b) {
        return a.partial.level_db > b.partial.level_db;
    });
    std::vector<Found> kept;
    for (const Found& found : all)
        if (kept.size() < most_listed && !is_none(found, kept, has_pitch)
            && (kept.empty() || found.partial.level_db > kept.front().partial.level_db - range_db))
            kept.push_back(found);
    std::vector<SoundingPartial> partials;
    for (const Found& found : kept) {
        partials.push_back(found.partial);
        partials.back().level_db -= kept.front().partial.level_db;
    }
    std::sort(partials.begin(), partials.end(),
              [](const SoundingPartial& a, const SoundingPartial& b) { return a.hz < b.hz; });
    return partials;
}

} // namespace

std::vector<SoundingPartial> sounding_partials(std::vector<Peak> peaks, const NoteSpectra& spectra,
                                               const PartialSeries& series) {
    constexpr std::size_t least_frames = 3;
    const double window_s = static_cast<double>(spectra.window) / spectra.rate;
    const std::vector<Peak> all = peaks;
    std::erase_if(peaks, [&](const Peak& peak) { return is_leakage(peak, all, spectra); });
    std::vector<Found> found;
    for (const Peak& peak : peaks) {
        const std::vector<Moment> course = course_of(spectra, peak.hz);
        if (course.size() < least_frames)
            continue;
        found.push_back(with_frequency(spectra, peak, course, series.moves));
        SoundingPartial& partial = found.back().partial;
        add_level(partial, course, window_s);
        partial.number = number_of(partial.hz, series);
    }
    return strongest(std::move(found), series.hz > 0);
}

} // namespace sectio::measure
