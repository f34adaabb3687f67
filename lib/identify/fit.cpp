#include <sectio/identify/fit.hpp>
#include <sectio/identify/log_factorial.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>

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
/// More than the last digits of a sum of weights are off.
constexpr double last_digits = 1e-6;

const double root_of_two_pi = std::sqrt(2 * std::numbers::pi);
const double log_stray = std::log(model::stray), log_unused = std::log(model::unused_degree);

/// A pitch for the quick score: its place on the circle, and 1 / (2 variance).
struct QuickPitch {
    double at, sharpness, weight;
    double left = 0; ///< the weight of this and all later ones, and a little more
};

double in_period(const LibraryScale& scale, double cents) {
    return scale.period > 0 ? cents - scale.period * periods_below(cents, scale.period) : cents;
}

std::vector<QuickPitch> quick_pitches(const LibraryScale& scale, const std::vector<SetPitch>& set) {
    std::vector<QuickPitch> pitches;
    pitches.reserve(set.size());
    for (const SetPitch& p : set)
        pitches.push_back({in_period(scale, p.cents) - scale.distance_begin,
                           1 / (2 * (quick_spread * quick_spread + p.variance)), p.weight});
    double left = last_digits;
    for (auto pitch = pitches.rbegin(); pitch != pitches.rend(); ++pitch)
        pitch->left = left += pitch->weight;
    return pitches;
}

/// The quick score looks pitches up in whole cents. `shift` lies in the first period. What cannot
/// come to `least` any more is left as it is.
double quick_score(const LibraryScale& scale, const std::vector<QuickPitch>& pitches, double shift,
                   double peak, double least) {
    double score = 0;
    for (const QuickPitch& pitch : pitches) {
        if (score + pitch.left * peak < least)
            return score;
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

/// A set names each degree once: of the count! / (count - used)! ways to draw `used` different
/// degrees one after the other each is equally probable, where drawing with repetition, which the
/// sums assume, has count^used ways. The logarithm of their quotient.
double log_without_repetition(std::size_t count, std::size_t used) {
    static const std::vector<double> small = [] {
        std::vector<double> values;
        for (int n = 0; n < 128; ++n)
            values.push_back(log_factorial(n));
        return values;
    }();
    const auto n = static_cast<double>(count), k = static_cast<double>(used);
    const auto of = [](std::size_t number) {
        return number < small.size() ? small[number] : log_factorial(static_cast<double>(number));
    };
    return k * std::log(n) - (of(count) - of(count - used));
}

/// e^-80 of the core is nothing beside the strays, nor beside what pulls elsewhere.
constexpr double nothing = 80;

/// Better scores first, then lower shifts.
constexpr auto goes_before = [](const Placement& a, const Placement& b) {
    return a.log_evidence != b.log_evidence ? a.log_evidence > b.log_evidence : a.shift < b.shift;
};

} // namespace

SetFit::SetFit(const std::vector<SetPitch>& set, const std::vector<double>& spreads)
    : set_(set), anchors_(anchors_of(set)) {
    const auto [low, high] =
        std::minmax_element(set.begin(), set.end(),
                            [](const SetPitch& a, const SetPitch& b) { return a.cents < b.cents; });
    lowest_ = low->cents;
    highest_ = high->cents;
    weight_ = std::accumulate(set.begin(), set.end(), 0.0,
                              [](double sum, const SetPitch& p) { return sum + p.weight; });
    for (const double size : spreads) {
        spreads_.push_back({size, {}});
        for (const SetPitch& pitch : set) {
            const double variance = size * size + pitch.variance;
            spreads_.back().terms.push_back({variance, std::sqrt(variance)});
        }
    }
}

/// What strewn pitches would be strewn over: the period, or for a scale that does not repeat the
/// range of the pitches themselves, so that all scales are judged against the same stray pitches.
double SetFit::strewn_over(const LibraryScale& scale) const {
    return scale.period > 0 ? scale.period : std::max(1200.0, highest_ - lowest_);
}

/// log of the peak of the core over the stray level, for one pitch.
double SetFit::log_peak(const LibraryScale& scale, double sigma) const {
    return std::log((1 - model::stray) / model::stray * strewn_over(scale)
                    / (static_cast<double>(scale.degrees.size()) * sigma * root_of_two_pi));
}

/// Where the scale is still to be moved, what lies farther than anything counts is passed over.
template <bool likelihood>
SetFit::Sums SetFit::sums_at(const LibraryScale& scale, double shift, const Spread& spread,
                             std::vector<char>& used) const {
    Sums sums;
    const double per_degree = (1 - model::stray) * strewn_over(scale)
                              / (static_cast<double>(scale.degrees.size()) * root_of_two_pi);
    for (std::size_t i = 0; i < set_.size(); ++i) {
        const auto& [variance, root] = spread.terms[i];
        const double weight = set_[i].weight;
        const auto near = scale.nearest(set_[i].cents - shift);
        const double exponent = -near.above * near.above / (2 * variance);
        if (exponent < -nothing) {
            sums.log_likelihood += weight * log_stray;
            continue;
        }
        const double core = per_degree / root * std::exp(exponent);
        const double share = core / (core + model::stray);
        sums.pull += weight * share * near.above / variance;
        sums.precision += weight * share / variance;
        if constexpr (likelihood) {
            sums.log_likelihood += weight * std::log(core + model::stray);
            if (share > 0.5)
                used[near.degree] = 1;
        }
    }
    return sums;
}

/// Degrees that nothing lies on; of a set that does not repeat only those within the pitches' range
/// can be missed.
std::size_t SetFit::count_unused(const LibraryScale& scale, double shift,
                                 const std::vector<char>& used) const {
    std::size_t unused = 0;
    for (std::size_t i = 0; i < used.size(); ++i) {
        const double at = scale.degrees[i] + shift;
        const bool in_range = scale.period > 0 || (at > lowest_ && at < highest_);
        unused += in_range && !used[i] ? 1 : 0;
    }
    return unused;
}

/// True where every pitch is a degree but for its rounding and the error of its measurement.
bool SetFit::lies_exactly(const LibraryScale& scale, double shift) const {
    constexpr double farthest = 10; // standard deviations
    return std::all_of(set_.begin(), set_.end(), [&](const SetPitch& pitch) {
        const double variance = model::spreads[0] * model::spreads[0] + pitch.variance;
        return std::abs(scale.nearest(pitch.cents - shift).above) < farthest * std::sqrt(variance);
    });
}

/// The evidence for one spread, integrated over the shift by the normal approximation about its
/// optimum; `shift` is moved there.
double SetFit::evidence(const LibraryScale& scale, double& shift, const Spread& spread,
                        std::vector<char>& used) const {
    used.assign(scale.degrees.size(), 0);
    for (int i = 0; i < refinement_steps; ++i) {
        const Sums sums = sums_at<false>(scale, shift, spread, used);
        const double moved = shift + (sums.precision > 0 ? sums.pull / sums.precision : 0);
        if (moved == shift)
            break;
        shift = moved;
    }
    const Sums sums = sums_at<true>(scale, shift, spread, used);
    const double width = 1 / std::sqrt(std::max(sums.precision, 1e-6));
    const auto count = static_cast<std::size_t>(std::count(used.begin(), used.end(), 1));
    return sums.log_likelihood + std::log(root_of_two_pi * width)
           + log_without_repetition(used.size(), count)
           + log_unused * static_cast<double>(count_unused(scale, shift, used));
}

double SetFit::best_quick(const LibraryScale& scale) const {
    return weight_ * std::max(0.0, log_peak(scale, quick_spread));
}

std::vector<Placement> SetFit::quick_placements(const LibraryScale& scale, std::size_t most,
                                                double least) const {
    const double peak = log_peak(scale, quick_spread);
    const auto pitches = quick_pitches(scale, set_);
    std::vector<Placement> places;
    places.reserve(anchors_.size() * scale.degrees.size());
    for (const SetPitch& anchor : anchors_)
        for (const double degree : scale.degrees) {
            const double shift = in_period(scale, anchor.cents - degree);
            const double score = quick_score(scale, pitches, shift, peak, least);
            least = std::max(least, score - quick_range);
            if (score >= least)
                places.push_back({shift, score, quick_spread});
        }
    std::sort(places.begin(), places.end(), goes_before);
    std::vector<Placement> kept;
    for (const Placement& place : places) {
        if (kept.size() == most || place.log_evidence < least)
            break;
        if (std::none_of(kept.begin(), kept.end(), [&](const Placement& k) {
                return distance_on(scale, k.shift, place.shift) < one_place;
            }))
            kept.push_back(place);
    }
    return kept;
}

Placement SetFit::refined(const LibraryScale& scale, double shift) const {
    Placement best;
    std::vector<double> logs;
    std::vector<char> used;
    logs.reserve(spreads_.size());
    for (const Spread& spread : spreads_) {
        double moved = shift;
        const bool foreign = spread.size == model::spreads[0] && !lies_exactly(scale, shift);
        logs.push_back(foreign ? -std::numeric_limits<double>::infinity()
                               : evidence(scale, moved, spread, used));
        if (logs.size() == 1 || logs.back() > best.log_evidence)
            best = {moved, logs.back(), spread.size};
    }
    // Of fewer spreads those of practice are meant, the last ones.
    const std::size_t left_out = std::size(model::spreads) - spreads_.size();
    double sum = 0;
    for (std::size_t i = 0; i < logs.size(); ++i) {
        const double share = logs.size() == 1 ? 1 : model::spread_shares[i + left_out];
        sum += share * std::exp(logs[i] - best.log_evidence);
    }
    best.log_evidence += std::log(sum);
    return best;
}

std::vector<PitchFit> SetFit::pitch_fits(const LibraryScale& scale,
                                         const Placement& placement) const {
    std::vector<PitchFit> fits;
    for (const SetPitch& pitch : set_) {
        const double variance = placement.spread * placement.spread + pitch.variance;
        const auto near = scale.nearest(pitch.cents - placement.shift);
        const double gain =
            log_peak(scale, std::sqrt(variance)) - near.above * near.above / (2 * variance);
        fits.push_back({near.degree, near.above, gain > 0});
    }
    return fits;
}

} // namespace sectio
