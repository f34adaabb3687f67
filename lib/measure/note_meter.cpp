#include <sectio/measure/common_wander.hpp>
#include <sectio/measure/note_meter.hpp>
#include <sectio/measure/other_sounds.hpp>
#include <sectio/measure/partials.hpp>
#include <sectio/measure/settling.hpp>
#include <sectio/measure/softer_sound.hpp>
#include <sectio/measure/sounding_partials.hpp>
#include <sectio/measure/statistics.hpp>
#include <sectio/measure/string_model.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace sectio::measure {

namespace {

constexpr std::size_t most_used_partials = 16;
constexpr double least_coherence = 0.4;

/// The partials that tell most: high ones tell more, by n², as far as they stand out.
std::vector<Followed> follow(const PartialSet& set, const NoteSpectra& spectra) {
    std::vector<Partial> chosen = set.partials;
    const auto worth = [](const Partial& p) {
        return std::pow(10.0, p.peak.above_noise_db / 10) * p.number * p.number;
    };
    std::sort(chosen.begin(), chosen.end(),
              [&](const Partial& a, const Partial& b) { return worth(a) > worth(b); });
    if (chosen.size() > most_used_partials)
        chosen.resize(most_used_partials);
    std::vector<Followed> followed;
    for (const Partial& p : chosen) {
        PartialPhase phase(spectra, p.peak.hz);
        const Frequency whole = phase.slope(0, spectra.frames.size());
        followed.push_back({p.number, p.peak.power, p.peak.hidden, std::move(phase), whole});
    }
    return followed;
}

/// What the partials say of a part of the note.
struct Told {
    std::vector<PartialFrequency> partials;
    /// Half the distance of the strings of a course, in cents; 0 where the partials do not swing so
    /// far that another string must be there.
    double course;
    double common; ///< variance, in cents, by which all partials wander alike
};

/// Of two strings, whose amplitudes are 1 and `ratio`, from the standard deviation of what sounds
/// at each partial's place, which is ratio / (1 + ratio²) times their distance.
double half_distance(double ratio, const std::vector<double>& spreads) {
    constexpr double another_string = 0.25; // 12 dB below
    return ratio < another_string ? 0 : median(spreads) * (1 + ratio * ratio) / (2 * ratio);
}

/// What beats with a partial for less than a turn in the time draws its slope by at most half of
/// their ratio over the time; a deviation of a third is stated. Where most partials swing to and
/// fro, as those of two strings do, one that seems steady may only beat too slowly.
Told told_by(const std::vector<Followed>& followed, std::size_t first, std::size_t last,
             double seconds) {
    std::vector<Frequency> found;
    std::vector<double> swings, spreads, wanders;
    for (const Followed& f : followed) {
        found.push_back(f.phase.slope(first, last));
        if (found.back().variance <= 0)
            continue;
        swings.push_back(found.back().swing2);
        wanders.push_back(found.back().wander2 * std::pow(cents_per_e / found.back().hz, 2));
        spreads.push_back(cents_per_e * found.back().spread_hz / found.back().hz);
    }
    const double beating = std::min(1.0, std::sqrt(2 * lower_quartile(swings)));
    Told told{{}, half_distance(beating, spreads), lower_quartile(wanders)};
    for (std::size_t i = 0; i < followed.size(); ++i) {
        const double drawn_hz = 0.3 * std::max(followed[i].hidden, beating) / seconds;
        if (found[i].variance > 0 && found[i].coherence >= least_coherence)
            told.partials.push_back({followed[i].number, found[i].hz,
                                     found[i].variance + drawn_hz * drawn_hz, followed[i].power});
    }
    return told;
}

/// What is stated of a note: `fit`, `settled` and `told` are of its settled blocks.
void state(NotePitch& note, const StringFit& fit, const Mean& settled, const Told& told) {
    constexpr int quarters = 3; // degrees of freedom of what hangs together over a quarter
    const double wander2 = wander(settled);
    note.hz = fit.first_partial_hz;
    note.partials = fit.used;
    note.inharmonicity = fit.inharmonicity;
    note.inharmonicity_half_width = student_95(fit.freedom) * fit.inharmonicity_deviation;
    note.wander_cents = std::sqrt(wander2 * settled.count);
    note.half_width_cents = std::hypot(student_95(fit.freedom) * std::sqrt(fit.variance_cents2),
                                       std::max(student_95(settled.count - 1) * std::sqrt(wander2),
                                                student_95(quarters) * std::sqrt(told.common)),
                                       std::hypot(told.course, method_cents));
}

void add(NotePitch& note, const CommonWander& wander) {
    note.wander_cents = std::hypot(note.wander_cents, wander.deviation_cents);
    note.half_width_cents = std::hypot(note.half_width_cents, wander.half_width_cents);
}

NotePitch in_trouble(NoteTrouble trouble) {
    NotePitch note;
    note.trouble = trouble;
    return note;
}

} // namespace

PartialSet NoteMeter::new_partials(std::span<const float> before, std::vector<Peak> peaks,
                                   const NoteSpectra& spectra, double about_hz,
                                   std::vector<double> covered, double most_hidden) {
    const std::vector<float> old = maker_.last_power(before, spectra.window);
    if (old.empty() || tell_old_apart(peaks, spectra, old, most_hidden, covered) == 0)
        return {};
    PartialSet set = best_partials(peaks, spectra, about_hz, covered);
    leave_to_drone(set, peaks, drone_);
    return several_notes(set, true) ? PartialSet{} : set;
}

PartialSet NoteMeter::partials_of_note(const std::vector<Peak>& peaks,
                                       const std::vector<double>& covered,
                                       const NoteSpectra& spectra, double about_hz, bool periodic,
                                       std::span<const float> before) {
    constexpr double same_cents = 50, least_part = 0.1;
    constexpr double half = 0.7, all_of_it = 1; // of the power was there before
    PartialSet set = best_partials(peaks, spectra, about_hz, covered);
    if (set.partials.empty())
        return set;
    leave_to_drone(set, peaks, drone_);
    const double all = set.explained_power + set.foreign_power;
    const bool alone =
        periodic && set.has(1) && std::abs(cents_above(set.place(1), about_hz)) < same_cents;
    if (alone || !several_notes(set, !drone_.empty())) {
        const PartialSet higher =
            new_partials(before, peaks, spectra, about_hz, covered, all_of_it);
        return is_multiple_of(higher, set) && 2 * higher.explained_power > all ? higher : set;
    }
    const PartialSet bar = bar_partial(peaks);
    if (!bar.partials.empty())
        return bar;
    const PartialSet fresh = new_partials(before, peaks, spectra, about_hz, covered, half);
    return fresh.explained_power > least_part * all ? fresh : bar;
}

NotePitch NoteMeter::measure(std::span<const float> samples, double about_hz, bool periodic,
                             std::span<const float> before) {
    constexpr double least_s = 0.06, least_s_over_drone = 0.18;
    const NoteSpectra spectra = maker_.spectra(samples, rate_, band_hz_, about_hz,
                                               drone_.empty() ? least_s : least_s_over_drone);
    const std::size_t frames = spectra.frames.size();
    if (frames < 3)
        return in_trouble(NoteTrouble::too_short);
    std::vector<Peak> peaks = peaks_of(spectra);
    const std::vector<double> covered = tell_drone_apart(peaks, spectra, drone_);
    if (peaks.empty())
        return in_trouble(NoteTrouble::no_partials);
    const PartialSet set = partials_of_note(peaks, covered, spectra, about_hz, periodic, before);
    if (set.partials.empty())
        return in_trouble(NoteTrouble::several_notes);
    NotePitch note{.hz = set.place(1), .below = sound_below(set, peaks)};
    std::vector<Followed> followed = follow(set, spectra);
    const std::vector<Block> blocks = blocks_of(followed, frames);
    const Blocks settled = settled_of(blocks);
    const auto skipped = static_cast<std::size_t>(settled.begin() - Blocks(blocks).begin());
    const std::size_t first = skipped * frames / blocks.size(),
                      last = (skipped + settled.size()) * frames / blocks.size();
    const double hop_s = static_cast<double>(spectra.hop) / rate_;
    note.glide_cents = first > 0 ? blocks.front().cents - mean_of(settled).cents : 0;
    const auto wander = common_wander(followed, spectra, first, last);
    if (wander)
        turn_back(followed, *wander);
    const Told told = told_by(followed, first, last, hop_s * static_cast<double>(last - first));
    const StringFit fit = fit_string(told.partials);
    if (fit.used == 0)
        return note;
    const std::vector<Block> left = wander ? blocks_of(followed, frames) : blocks;
    note.settled_s = hop_s * static_cast<double>(first);
    state(note, fit, mean_of(Blocks(left).subspan(skipped, settled.size())), told);
    if (wander)
        add(note, *wander);
    return note;
}

bool NoteMeter::brings_new(std::span<const float> samples, double about_hz,
                           std::span<const float> before) {
    constexpr double least_s = 0.06, least_part = 0.1, all_of_it = 1;
    const NoteSpectra spectra = maker_.spectra(samples, rate_, band_hz_, about_hz, least_s);
    if (spectra.frames.size() < 3)
        return true;
    std::vector<Peak> peaks = peaks_of(spectra);
    const std::vector<float> old = maker_.last_power(before, spectra.window);
    if (old.empty() || peaks.empty())
        return true;
    const auto power = [&] {
        return std::accumulate(peaks.begin(), peaks.end(), 0.0,
                               [](double sum, const Peak& peak) { return sum + peak.power; });
    };
    const double all = power();
    std::vector<double> covered;
    tell_old_apart(peaks, spectra, old, all_of_it, covered);
    return power() > least_part * all;
}

std::vector<SoundingPartial> NoteMeter::partials(std::span<const float> samples,
                                                 const NotePitch& pitch) {
    constexpr double steady_s = 0.25, moving_s = 0.06, unknown_hz = 100;
    const double about_hz = pitch.hz > 0 ? pitch.hz : unknown_hz;
    const auto within = [&](double window_s) {
        return maker_.spectra(samples, rate_, band_hz_, about_hz, window_s);
    };
    const bool moves = pitch.hz > 0 && pitch.partials == 0;
    const NoteSpectra spectra = within(moves ? moving_s : steady_s);
    if (spectra.frames.size() < 3)
        return {};
    std::vector<Peak> peaks = peaks_of(spectra);
    tell_drone_apart(peaks, spectra, drone_);
    const double hz = pitch.trouble == NoteTrouble::none ? pitch.hz : 0;
    return sounding_partials(std::move(peaks), spectra, {hz, pitch.inharmonicity, moves});
}

} // namespace sectio::measure
