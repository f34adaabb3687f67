#include <sectio/measure/frame_pitch.hpp>
#include <sectio/measure/partials.hpp>
#include <sectio/measure/softer_sound.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

namespace sectio::measure {

namespace {

/// Power of a peak over the noise, below which a bin among thousands may be chance.
constexpr double least_peak_db = 9;
/// What a peak can speak for or against a pitch at most, and what a missing partial costs.
constexpr double most_vote_db = 60;
constexpr double hole_cost_db = 12;
/// Peaks this far below the strongest one are leakage of the window, not partials.
constexpr double dynamic_range_db = 75;
constexpr int most_partials = 40;
/// Part of the distance of two partials by which one may lie off its place.
constexpr double place_tolerance = 0.12;
constexpr double most_inharmonicity = 0.02;

constexpr double most_foreign_power = 0.1;

/// The peak nearest to `hz`; peaks rise.
const Peak* nearest(const std::vector<Peak>& peaks, double hz) {
    const auto above = std::lower_bound(peaks.begin(), peaks.end(), hz,
                                        [](const Peak& p, double x) { return p.hz < x; });
    const Peak* best = above == peaks.end() ? nullptr : &*above;
    if (above != peaks.begin() && (!best || hz - (above - 1)->hz < best->hz - hz))
        best = &*(above - 1);
    return best;
}

double vote(const Peak& peak) {
    return std::min(peak.above_noise_db, most_vote_db);
}

/// Least squares of (f(n)/n)² = f² + f²B n², which is linear in n², each weighted by its power.
void refit(PartialSet& set) {
    double sw = 0, sx = 0, sy = 0, sxx = 0, sxy = 0;
    for (const Partial& p : set.partials) {
        const double n2 = p.number * p.number, y = std::pow(p.peak.hz / p.number, 2);
        // A place is known to a part of a bin, so y is known the better the higher n is.
        const double w = n2;
        sw += w, sx += w * n2, sy += w * y, sxx += w * n2 * n2, sxy += w * n2 * y;
    }
    const double spread = sw * sxx - sx * sx;
    const double slope =
        set.partials.size() >= 4 && spread > 0 ? (sw * sxy - sx * sy) / spread : 0.0;
    const double start = (sy - slope * sx) / sw;
    if (start <= 0)
        return;
    const double b = slope / start;
    if (b >= 0 && b <= most_inharmonicity) {
        set.fundamental_hz = std::sqrt(start);
        set.inharmonicity = b;
    } else {
        set.fundamental_hz = std::sqrt(sy / sw);
        set.inharmonicity = 0;
    }
}

/// Walks up from the lowest partial; what was found so far says where the next one is.
PartialSet collect(const std::vector<Peak>& peaks, const NoteSpectra& spectra, double f) {
    PartialSet set;
    set.fundamental_hz = f;
    for (int n = 1; n <= most_partials; ++n) {
        const double expected = set.place(n);
        if (expected > spectra.band_hz)
            break;
        const Peak* peak = nearest(peaks, expected);
        const double tolerance =
            std::max(place_tolerance * set.fundamental_hz, spectra.hertz(0.75));
        if (!peak || std::abs(peak->hz - expected) > tolerance)
            continue;
        if (!set.partials.empty() && set.partials.back().peak.hz == peak->hz)
            continue;
        set.partials.push_back({n, *peak});
        refit(set);
    }
    return set;
}

/// Ends the set where it speaks most for itself: a peak far above a note's last partial lies near
/// some place of the set by chance.
void end_at_best(PartialSet& set) {
    std::size_t best = 0;
    double votes = 0;
    for (std::size_t i = 0; i < set.partials.size(); ++i) {
        votes += vote(set.partials[i].peak);
        const int holes = set.partials[i].number - static_cast<int>(i) - 1;
        if (const double score = votes - hole_cost_db * holes; i == 0 || score > set.score)
            set.score = score, set.holes = holes, best = i;
    }
    if (best + 1 >= set.partials.size())
        return;
    set.partials.resize(best + 1);
    refit(set);
}

void judge(PartialSet& set, const std::vector<Peak>& peaks) {
    end_at_best(set);
    // Of what could be its partials: none is looked for above the last number.
    const double end_hz = set.place(most_partials) + set.fundamental_hz / 2;
    double all = 0;
    for (const Peak& peak : peaks)
        all += peak.hz < end_hz ? peak.power : 0;
    for (const Partial& p : set.partials) {
        set.explained_power += p.peak.power;
        set.weight += p.peak.power * p.peak.hz;
    }
    set.foreign_power = std::max(0.0, all - set.explained_power);
}

/// The coarse pitch and its simple relatives; and the strongest peaks as low partials of a note,
/// for where the coarse look fails: high notes at a low rate, and lone partials.
std::vector<double> possible_fundamentals(const std::vector<Peak>& peaks, double about_hz) {
    std::vector<double> result;
    for (double ratio : {1.0, 2.0, 0.5, 3.0, 1.0 / 3, 4.0, 0.25, 1.5, 2.0 / 3, 5.0, 0.2})
        result.push_back(about_hz * ratio);
    std::vector<Peak> strongest = peaks;
    std::sort(strongest.begin(), strongest.end(),
              [](const Peak& a, const Peak& b) { return a.power > b.power; });
    for (std::size_t i = 0; i < std::min<std::size_t>(strongest.size(), 4); ++i)
        for (int number = 1; number <= 4; ++number)
            result.push_back(strongest[i].hz / number);
    std::erase_if(result, [](double f) { return f < lowest_hz || f > highest_hz; });
    return result;
}

/// Partials missing among the first eight though both neighbours stand high above the noise.
int plain_holes(const PartialSet& set) {
    constexpr double high_db = 20;
    constexpr int looked_at = 8;
    int holes = 0;
    for (std::size_t i = 1; i < set.partials.size(); ++i) {
        const Partial &below = set.partials[i - 1], &above = set.partials[i];
        if (below.peak.above_noise_db > high_db && above.peak.above_noise_db > high_db)
            holes += std::max(0, std::min(above.number, looked_at + 1) - below.number - 1);
    }
    const bool high_start = !set.partials.empty() && set.partials[0].peak.above_noise_db > high_db;
    return holes + (high_start ? std::max(0, set.partials[0].number - 2) : 0);
}

/// What may be hidden in the partials: as much as stands beside each, up to the next.
void add_hidden(PartialSet& set, const std::vector<Peak>& peaks) {
    for (Partial& partial : set.partials) {
        double power = 0;
        for (const Peak& other : peaks) {
            const bool own = std::any_of(set.partials.begin(), set.partials.end(),
                                         [&](const Partial& p) { return p.peak.hz == other.hz; });
            if (!own && std::abs(other.hz - partial.peak.hz) < set.fundamental_hz)
                power = std::max(power, other.power);
        }
        partial.peak.hidden = std::max(partial.peak.hidden, std::sqrt(power / partial.peak.power));
    }
}

/// The lowest peak where all strong ones lie as a free bar's do.
const Peak* bar_peak(const std::vector<Peak>& peaks) {
    constexpr double tolerance = 0.025, strong = 3e-3; // 25 dB below
    constexpr std::array<double, 4> ratios = {1, 2.756, 5.404, 8.933};
    double most = 0;
    for (const Peak& peak : peaks)
        most = std::max(most, peak.power);
    const Peak* lowest = nullptr;
    int above = 0;
    for (const Peak& peak : peaks) {
        if (peak.power < strong * most)
            continue;
        lowest = lowest ? lowest : &peak;
        const double ratio = peak.hz / lowest->hz;
        if (std::none_of(ratios.begin(), ratios.end(),
                         [&](double r) { return std::abs(ratio / r - 1) < tolerance; }))
            return nullptr;
        above += ratio > 2 ? 1 : 0;
    }
    return above > 0 ? lowest : nullptr;
}

/// Whether the first partial of the set is that of the coarse look, and a drone covers it.
bool starts_covered(const PartialSet& set, const std::vector<double>& covered, double about_hz) {
    constexpr double same_place = 0.02; // a third of a semitone
    const auto is_first = [&](double hz) { return std::abs(hz / set.place(1) - 1) < same_place; };
    return is_first(about_hz) && std::any_of(covered.begin(), covered.end(), is_first);
}

/// Of the sets that leave no other note aside the one that fits best, if it fits nearly as well as
/// `best`: no set goes beyond its fortieth partial, so that a low note's octave may seem to have
/// more of them.
const PartialSet* whole_one(const std::vector<PartialSet>& sets, const PartialSet& best) {
    constexpr double nearly = 0.7;
    const PartialSet* whole = nullptr;
    for (const PartialSet& set : sets)
        if (set.has(1) && !several_notes(set)
            && set.score > (whole ? whole->score : nearly * best.score))
            whole = &set;
    return whole;
}

} // namespace

PartialSet bar_partial(const std::vector<Peak>& peaks) {
    PartialSet set;
    if (const Peak* peak = bar_peak(peaks)) {
        set.fundamental_hz = peak->hz;
        set.partials.push_back({1, *peak});
        judge(set, {*peak});
    }
    return set;
}

double PartialSet::place(int number) const {
    return number * fundamental_hz * std::sqrt(1 + inharmonicity * number * number);
}

bool PartialSet::has(int number) const {
    return std::any_of(partials.begin(), partials.end(),
                       [number](const Partial& p) { return p.number == number; });
}

std::vector<Peak> peaks_of(const NoteSpectra& spectra) {
    std::vector<Peak> peaks;
    const auto& power = spectra.power;
    const auto last = static_cast<std::size_t>(spectra.bin(spectra.band_hz));
    double strongest = 0;
    for (std::size_t k = 2; k + 1 < std::min(last, spectra.bins); ++k) {
        if (power[k] <= power[k - 1] || power[k] < power[k + 1])
            continue;
        const double noise = std::max(static_cast<double>(spectra.noise[k]), 1e-30);
        const double db = 10 * std::log10(static_cast<double>(power[k]) / noise);
        if (db < least_peak_db)
            continue;
        const double offset =
            top_offset(static_cast<double>(power[k - 1]), static_cast<double>(power[k]),
                       static_cast<double>(power[k + 1]));
        peaks.push_back({spectra.hertz(static_cast<double>(k) + offset),
                         static_cast<double>(power[k]) - noise, db});
        strongest = std::max(strongest, peaks.back().power);
    }
    std::erase_if(peaks, [&](const Peak& p) {
        return p.power < strongest * std::pow(10.0, -dynamic_range_db / 10);
    });
    return peaks;
}

PartialSet best_partials(const std::vector<Peak>& peaks, const NoteSpectra& spectra,
                         double about_hz, const std::vector<double>& covered) {
    std::vector<PartialSet> sets;
    for (double f : possible_fundamentals(peaks, about_hz)) {
        sets.push_back(collect(peaks, spectra, f));
        judge(sets.back(), peaks);
    }
    std::erase_if(sets, [](const PartialSet& set) { return set.partials.empty(); });
    if (sets.empty())
        return {};
    // What holds less than half of the power is no note where another holds more.
    const auto holds_half = [](const PartialSet& set) {
        return set.explained_power > set.foreign_power;
    };
    if (std::any_of(sets.begin(), sets.end(), holds_half))
        std::erase_if(sets, std::not_fn(holds_half));
    const auto fits_worse = [](const PartialSet& a, const PartialSet& b) {
        return a.score < b.score;
    };
    PartialSet best = *std::max_element(sets.begin(), sets.end(), fits_worse);
    if (const PartialSet* whole = several_notes(best) ? whole_one(sets, best) : nullptr)
        best = PartialSet(*whole);
    for (const PartialSet& set : sets)
        if (!starts_covered(best, covered, about_hz) && is_louder_alone(set, best, spectra))
            best = set;
    add_hidden(best, peaks);
    return best;
}

bool several_notes(const PartialSet& set, bool over_drone) {
    return set.foreign_power > most_foreign_power * set.explained_power
           || (!over_drone && !set.has(1) && plain_holes(set) >= 2);
}

} // namespace sectio::measure
