#include <sectio/measure/note_pitch.hpp>
#include <sectio/measure/partials.hpp>
#include <sectio/measure/phase_slope.hpp>
#include <sectio/measure/statistics.hpp>
#include <sectio/measure/string_model.hpp>

#include <algorithm>
#include <cmath>

namespace sectio::measure {

namespace {

constexpr std::size_t most_used_partials = 16;
constexpr double least_coherence = 0.4;
constexpr std::size_t most_blocks = 8, least_block_frames = 4;
/// A start within this of the settled pitch is not worth leaving out.
constexpr double settled_cents = 1.0;
/// What the arithmetic itself may be off: single precision, and leakage between partials.
constexpr double method_cents = 5e-4;

struct Followed {
    int number;
    double power;
    double hidden_hz2; ///< variance that what is hidden at the same place may cause
    PartialPhase phase;
};

/// A part of the note, and how its pitch lies beside that of the whole.
struct Block {
    double cents = 0;
    double variance = 0;
};

double cents_between(double hz, double reference) {
    return 1200 * std::log2(hz / reference);
}

/// The partials that tell most: high ones tell more, by n², as far as they stand out.
/// What beats with a partial for less than a turn draws its slope by at most half of their ratio
/// over the time; a deviation of a third is stated.
double hidden_variance(const Peak& peak, const NoteSpectra& spectra) {
    const double seconds = static_cast<double>(spectra.frames.size() * spectra.hop) / spectra.rate;
    return std::pow(0.3 * peak.hidden / seconds, 2);
}

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
    for (const Partial& p : chosen)
        followed.push_back({p.number, p.peak.power, hidden_variance(p.peak, spectra),
                            PartialPhase(spectra, p.peak.hz)});
    return followed;
}

std::vector<PartialFrequency> frequencies(const std::vector<Followed>& followed, std::size_t first,
                                          std::size_t last) {
    std::vector<PartialFrequency> result;
    for (const Followed& f : followed) {
        const Frequency found = f.phase.slope(first, last);
        if (found.variance > 0 && found.coherence >= least_coherence)
            result.push_back({f.number, found.hz, found.variance + f.hidden_hz2, f.power});
    }
    return result;
}

/// One block's pitch beside the whole note's: each partial beside itself, so that neither
/// inharmonicity nor a displaced partial enters.
Block block_of(const std::vector<Followed>& followed, const std::vector<Frequency>& whole,
               std::size_t first, std::size_t last) {
    double sw = 0, sc = 0;
    for (std::size_t i = 0; i < followed.size(); ++i) {
        const Frequency part = followed[i].phase.slope(first, last);
        if (part.variance <= 0 || whole[i].variance <= 0)
            continue;
        const double w = std::pow(part.hz, 2) / part.variance;
        sw += w, sc += w * cents_between(part.hz, whole[i].hz);
    }
    return sw > 0 ? Block{sc / sw, std::pow(1200 / std::log(2.0), 2) / sw} : Block{};
}

struct Mean {
    double cents = 0, variance = 0, chi2 = 0;
    int count = 0;
};

Mean mean_of(const std::vector<Block>& blocks, std::size_t first) {
    Mean mean;
    double sw = 0, sc = 0;
    for (std::size_t i = first; i < blocks.size(); ++i)
        if (blocks[i].variance > 0)
            sw += 1 / blocks[i].variance, sc += blocks[i].cents / blocks[i].variance, ++mean.count;
    if (sw == 0)
        return mean;
    mean.cents = sc / sw, mean.variance = 1 / sw;
    for (std::size_t i = first; i < blocks.size(); ++i)
        if (blocks[i].variance > 0)
            mean.chi2 += std::pow(blocks[i].cents - mean.cents, 2) / blocks[i].variance;
    return mean;
}

/// Variance of the mean by which the pitch wanders beyond its errors (R. T. Birge, "The calculation
/// of errors by the method of least squares", Physical Review 40, 1932); 0 where χ² is no larger
/// than chance makes it once in twenty times.
double wander(const Mean& mean) {
    const int freedom = mean.count - 1;
    if (freedom < 1 || mean.chi2 < chance_chi2(freedom))
        return 0;
    return (mean.chi2 / freedom - 1) * mean.variance;
}

/// Blocks to leave out at the start, where the pitch still falls (or rises) to what it settles at;
/// never more than half of them.
std::size_t unsettled(const std::vector<Block>& blocks) {
    std::size_t first = 0;
    while (2 * (first + 1) <= blocks.size()) {
        const Mean rest = mean_of(blocks, first + 1);
        const Block& block = blocks[first];
        if (block.variance > 0 && rest.count > 0) {
            const double wander =
                rest.count > 1 ? std::max(1.0, rest.chi2 / (rest.count - 1)) : 1.0;
            const double doubt = 4 * std::sqrt(block.variance + rest.variance * wander);
            if (std::abs(block.cents - rest.cents) < std::max(settled_cents, doubt))
                break;
        }
        ++first;
    }
    return 2 * first <= blocks.size() && first < blocks.size() ? first : 0;
}

std::vector<Block> blocks_of(const std::vector<Followed>& followed, std::size_t frames) {
    std::vector<Frequency> whole;
    for (const Followed& f : followed)
        whole.push_back(f.phase.slope(0, frames));
    const std::size_t count = std::clamp<std::size_t>(frames / least_block_frames, 1, most_blocks);
    std::vector<Block> blocks;
    for (std::size_t i = 0; i < count; ++i)
        blocks.push_back(block_of(followed, whole, i * frames / count, (i + 1) * frames / count));
    return blocks;
}

/// What is stated of a note from the settled blocks on: `fit` is of those.
void state(NotePitch& note, const StringFit& fit, const std::vector<Block>& blocks,
           std::size_t first_block) {
    const Mean settled = mean_of(blocks, first_block);
    const double wander2 = wander(settled);
    note.hz = fit.first_partial_hz;
    note.partials = fit.used;
    note.inharmonicity = fit.inharmonicity;
    note.inharmonicity_half_width = student_95(fit.freedom) * fit.inharmonicity_deviation;
    note.glide_cents = first_block > 0 ? blocks.front().cents - settled.cents : 0;
    note.wander_cents = std::sqrt(wander2 * settled.count);
    note.half_width_cents =
        std::hypot(student_95(fit.freedom) * std::sqrt(fit.variance_cents2),
                   student_95(settled.count - 1) * std::sqrt(wander2), method_cents);
}

/// Leaves out the peaks that are the drone's; of those that lie on one and are stronger, says how
/// much is hidden in them.
void tell_drone_apart(std::vector<Peak>& peaks, const NoteSpectra& spectra, const Drone& drone) {
    constexpr double same_place_bins = 2.5, most_hidden = 0.6;
    if (drone.empty())
        return;
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
    std::erase_if(peaks, [](const Peak& peak) { return peak.hidden > most_hidden; });
}

NotePitch in_trouble(NoteTrouble trouble) {
    NotePitch note;
    note.trouble = trouble;
    return note;
}

} // namespace

NotePitch NoteMeter::measure(std::span<const float> samples, double about_hz) {
    constexpr double least_s = 0.06, least_s_over_drone = 0.18;
    const NoteSpectra spectra = maker_.spectra(samples, rate_, band_hz_, about_hz,
                                               drone_.empty() ? least_s : least_s_over_drone);
    const std::size_t frames = spectra.frames.size();
    if (frames < 3)
        return in_trouble(NoteTrouble::too_short);
    std::vector<Peak> peaks = peaks_of(spectra);
    tell_drone_apart(peaks, spectra, drone_);
    PartialSet set = best_partials(peaks, spectra, about_hz);
    if (set.partials.empty())
        return in_trouble(NoteTrouble::no_partials);
    if (several_notes(set, !drone_.empty()))
        set = bar_partial(peaks);
    if (set.partials.empty())
        return in_trouble(NoteTrouble::several_notes);
    NotePitch note;
    note.hz = set.fundamental_hz * std::sqrt(1 + set.inharmonicity);
    const std::vector<Followed> followed = follow(set, spectra);
    const std::vector<Block> blocks = blocks_of(followed, frames);
    const std::size_t first_block = unsettled(blocks);
    const std::size_t first = first_block * frames / blocks.size();
    const StringFit fit = fit_string(frequencies(followed, first, frames));
    if (fit.used == 0)
        return note;
    note.settled_s = static_cast<double>(first * spectra.hop) / rate_;
    state(note, fit, blocks, first_block);
    return note;
}

} // namespace sectio::measure
