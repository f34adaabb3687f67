#include <sectio/identify/fit.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace sectio {

namespace {

/// Spread at which the quick score looks: the geometric middle of the spreads, rounded.
constexpr double quick_spread = 8;
/// Pitches whose coincidence with a degree proposes a place. With five, one of them is no stray
/// unless all five are: 3 in ten million at a share of 0.05.
constexpr std::size_t most_anchors = 5;
/// Places closer than this, in cents, are one: the refinement moves as far.
constexpr double one_place = 12;
/// A place whose quick score is this far below the scale's best is left out: e^-8 of its weight.
constexpr double quick_range = 8;
constexpr int refinement_steps = 3;

const double root_of_two_pi = std::sqrt(2 * std::numbers::pi);

/// What strewn pitches would be strewn over: the period, or for a scale that does not repeat the
/// range of the pitches themselves, so that all scales are judged against the same stray pitches.
double strewn_over(const LibraryScale& scale, const std::vector<SetPitch>& set) {
    if (scale.period > 0)
        return scale.period;
    const auto [low, high] =
        std::minmax_element(set.begin(), set.end(),
                            [](const SetPitch& a, const SetPitch& b) { return a.cents < b.cents; });
    return std::max(1200.0, high->cents - low->cents);
}

/// log of the peak of the core over the stray level, for one pitch.
double log_peak(const LibraryScale& scale, const std::vector<SetPitch>& set, double sigma) {
    return std::log((1 - model::stray) / model::stray * strewn_over(scale, set)
                    / (static_cast<double>(scale.degrees.size()) * sigma * root_of_two_pi));
}

/// A pitch for the quick score: its place on the circle, and 1 / (2 variance).
struct QuickPitch {
    double at, sharpness, weight;
};

double in_period(const LibraryScale& scale, double cents) {
    return scale.period > 0 ? cents - scale.period * std::floor(cents / scale.period) : cents;
}

std::vector<QuickPitch> quick_pitches(const LibraryScale& scale, const std::vector<SetPitch>& set) {
    std::vector<QuickPitch> pitches;
    for (const SetPitch& p : set)
        pitches.push_back({in_period(scale, p.cents) - scale.distance_begin,
                           1 / (2 * (quick_spread * quick_spread + p.variance)), p.weight});
    return pitches;
}

/// The quick score looks pitches up in whole cents. `shift` lies in the first period.
double quick_score(const LibraryScale& scale, const std::vector<QuickPitch>& pitches, double shift,
                   double peak) {
    double score = 0;
    for (const QuickPitch& pitch : pitches) {
        double at = pitch.at - shift;
        at += at < 0 ? scale.period : 0;
        const auto index = static_cast<std::size_t>(std::max(at, 0.0));
        if (at < 0 || index >= scale.distance.size())
            continue;
        const double d = scale.distance[index];
        const double gain = peak - d * d * pitch.sharpness;
        score += gain > 0 ? pitch.weight * gain : 0;
    }
    return score;
}

/// The pitches that propose places: the heaviest, earlier ones first.
std::vector<SetPitch> anchors_of(const std::vector<SetPitch>& set) {
    std::vector<SetPitch> anchors = set;
    std::stable_sort(anchors.begin(), anchors.end(),
                     [](const SetPitch& a, const SetPitch& b) { return a.weight > b.weight; });
    anchors.resize(std::min(anchors.size(), most_anchors));
    return anchors;
}

double distance_on(const LibraryScale& scale, double a, double b) {
    const double d = std::abs(a - b);
    return scale.period > 0
               ? std::min(std::fmod(d, scale.period), scale.period - std::fmod(d, scale.period))
               : d;
}

/// Sums over the set for one spread at one shift.
struct Sums {
    double log_likelihood = 0;
    double pull = 0;      ///< sum of responsibility * deviation / variance
    double precision = 0; ///< sum of responsibility / variance
};

Sums sums_at(const LibraryScale& scale, const std::vector<SetPitch>& set, double shift,
             double spread, std::vector<char>* used) {
    Sums sums;
    const double per_degree = (1 - model::stray) * strewn_over(scale, set)
                              / (static_cast<double>(scale.degrees.size()) * root_of_two_pi);
    for (const SetPitch& pitch : set) {
        const double variance = spread * spread + pitch.variance;
        const auto near = scale.nearest(pitch.cents - shift);
        const double core =
            per_degree / std::sqrt(variance) * std::exp(-near.above * near.above / (2 * variance));
        const double share = core / (core + model::stray);
        sums.log_likelihood += pitch.weight * std::log(core + model::stray);
        sums.pull += pitch.weight * share * near.above / variance;
        sums.precision += pitch.weight * share / variance;
        if (used && share > 0.5)
            (*used)[near.degree] = 1;
    }
    return sums;
}

/// Degrees that nothing lies on; of a set that does not repeat only those within the pitches' range
/// can be missed.
std::size_t count_unused(const LibraryScale& scale, const std::vector<SetPitch>& set, double shift,
                         const std::vector<char>& used) {
    const auto [low, high] =
        std::minmax_element(set.begin(), set.end(),
                            [](const SetPitch& a, const SetPitch& b) { return a.cents < b.cents; });
    std::size_t unused = 0;
    for (std::size_t i = 0; i < used.size(); ++i) {
        const double at = scale.degrees[i] + shift;
        const bool in_range = scale.period > 0 || (at > low->cents && at < high->cents);
        unused += in_range && !used[i] ? 1 : 0;
    }
    return unused;
}

/// True where every pitch is a degree but for its rounding and the error of its measurement.
bool lies_exactly(const LibraryScale& scale, const std::vector<SetPitch>& set, double shift) {
    constexpr double farthest = 10; // standard deviations
    return std::all_of(set.begin(), set.end(), [&](const SetPitch& pitch) {
        const double variance = model::spreads[0] * model::spreads[0] + pitch.variance;
        return std::abs(scale.nearest(pitch.cents - shift).above) < farthest * std::sqrt(variance);
    });
}

/// A set names each degree once: of the count! / (count - used)! ways to draw `used` different
/// degrees one after the other each is equally probable, where drawing with repetition, which the
/// sums assume, has count^used ways. The logarithm of their quotient.
double log_without_repetition(std::size_t count, std::size_t used) {
    const auto n = static_cast<double>(count), k = static_cast<double>(used);
    return k * std::log(n) - (std::lgamma(n + 1) - std::lgamma(n - k + 1));
}

/// The evidence for one spread, integrated over the shift by the normal approximation about its
/// optimum; `shift` is moved there.
double evidence(const LibraryScale& scale, const std::vector<SetPitch>& set, double& shift,
                double spread) {
    for (int i = 0; i < refinement_steps; ++i) {
        const Sums sums = sums_at(scale, set, shift, spread, nullptr);
        if (sums.precision <= 0)
            break;
        shift += sums.pull / sums.precision;
    }
    std::vector<char> used(scale.degrees.size(), 0);
    const Sums sums = sums_at(scale, set, shift, spread, &used);
    const double width = 1 / std::sqrt(std::max(sums.precision, 1e-6));
    const auto count = static_cast<std::size_t>(std::count(used.begin(), used.end(), 1));
    return sums.log_likelihood + std::log(root_of_two_pi * width)
           + log_without_repetition(used.size(), count)
           + std::log(model::unused_degree)
                 * static_cast<double>(count_unused(scale, set, shift, used));
}

} // namespace

std::vector<Placement> quick_placements(const LibraryScale& scale, const std::vector<SetPitch>& set,
                                        std::size_t most) {
    const double peak = log_peak(scale, set, quick_spread);
    const auto pitches = quick_pitches(scale, set);
    std::vector<Placement> places;
    for (const SetPitch& anchor : anchors_of(set))
        for (const double degree : scale.degrees) {
            const double shift = in_period(scale, anchor.cents - degree);
            places.push_back({shift, quick_score(scale, pitches, shift, peak), quick_spread});
        }
    std::sort(places.begin(), places.end(), [](const Placement& a, const Placement& b) {
        return a.log_evidence != b.log_evidence ? a.log_evidence > b.log_evidence
                                                : a.shift < b.shift;
    });
    std::vector<Placement> kept;
    for (const Placement& place : places) {
        if (kept.size() == most || place.log_evidence < places.front().log_evidence - quick_range)
            break;
        if (std::none_of(kept.begin(), kept.end(), [&](const Placement& k) {
                return distance_on(scale, k.shift, place.shift) < one_place;
            }))
            kept.push_back(place);
    }
    return kept;
}

Placement refined(const LibraryScale& scale, const std::vector<SetPitch>& set, double shift,
                  const std::vector<double>& spreads) {
    Placement best;
    std::vector<double> logs;
    for (const double spread : spreads) {
        double moved = shift;
        const bool foreign = spread == model::spreads[0] && !lies_exactly(scale, set, shift);
        logs.push_back(foreign ? -std::numeric_limits<double>::infinity()
                               : evidence(scale, set, moved, spread));
        if (logs.size() == 1 || logs.back() > best.log_evidence)
            best = {moved, logs.back(), spread};
    }
    // Of fewer spreads those of practice are meant, the last ones.
    const std::size_t left_out = std::size(model::spreads) - spreads.size();
    double sum = 0;
    for (std::size_t i = 0; i < logs.size(); ++i) {
        const double share = logs.size() == 1 ? 1 : model::spread_shares[i + left_out];
        sum += share * std::exp(logs[i] - best.log_evidence);
    }
    best.log_evidence += std::log(sum);
    return best;
}

std::vector<PitchFit> pitch_fits(const LibraryScale& scale, const std::vector<SetPitch>& set,
                                 const Placement& placement) {
    std::vector<PitchFit> fits;
    for (const SetPitch& pitch : set) {
        const double variance = placement.spread * placement.spread + pitch.variance;
        const auto near = scale.nearest(pitch.cents - placement.shift);
        const double gain =
            log_peak(scale, set, std::sqrt(variance)) - near.above * near.above / (2 * variance);
        fits.push_back({near.degree, near.above, gain > 0});
    }
    return fits;
}

} // namespace sectio
