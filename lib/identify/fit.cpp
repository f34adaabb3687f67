#include <sectio/identify/fit.hpp>
#include <sectio/identify/log_factorial.hpp>

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>
#include <numeric>

namespace sectio {

namespace {

constexpr int refinement_steps = 3;
const double root_of_two_pi = std::sqrt(2 * std::numbers::pi);
const double log_stray = std::log(model::stray), log_unused = std::log(model::unused_degree);

/// A set names each degree once: of the count! / (count - used)! ways to draw `used` different
/// degrees one after the other each is equally probable, where drawing with repetition, which the
/// sums assume, has count^used ways. The logarithm of their quotient.
double log_without_repetition(std::size_t count, std::size_t used, double log_count) {
    static const std::vector<double> small = [] {
        std::vector<double> values;
        for (int n = 0; n < 128; ++n)
            values.push_back(log_factorial(n));
        return values;
    }();
    const auto of = [](std::size_t number) {
        return number < small.size() ? small[number] : log_factorial(static_cast<double>(number));
    };
    return static_cast<double>(used) * log_count - (of(count) - of(count - used));
}

/// e^-80 of the core is nothing beside the strays, nor beside what pulls elsewhere.
constexpr double nothing = 80;

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
            spreads_.back().terms.push_back({variance, 2 * variance, std::sqrt(variance)});
        }
    }
    start_.resize(set.size());
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

const SetFit::Size& SetFit::size_of(const LibraryScale& scale) {
    if (sizes_.size() <= scale.size_class)
        sizes_.resize(scale.size_class + 1);
    Size& size = sizes_[scale.size_class];
    if (!size.peaks.empty())
        return size;
    const auto count = static_cast<double>(scale.degrees.size());
    const double per_degree = (1 - model::stray) * strewn_over(scale) / (count * root_of_two_pi);
    size.log_count = std::log(count);
    for (const Spread& spread : spreads_)
        for (const Term& term : spread.terms)
            size.peaks.push_back(per_degree / term.root);
    return size;
}

/// Where the scale is still to be moved, what lies farther than anything counts is passed over.
template <bool likelihood>
SetFit::Sums SetFit::sums_at(const LibraryScale& scale, double shift, std::size_t spread,
                             const Size& size) {
    Sums sums;
    const Term* terms = spreads_[spread].terms.data();
    const double* peaks = size.peaks.data() + spread * set_.size();
    for (std::size_t i = 0; i < set_.size(); ++i) {
        const double weight = set_[i].weight;
        const double above = scale.above(set_[i].cents - shift, held_[i]);
        const double exponent = -above * above / terms[i].twice;
        if (exponent < -nothing) {
            sums.log_likelihood += weight * log_stray;
            continue;
        }
        const double core = peaks[i] * std::exp(exponent);
        const double share = core / (core + model::stray);
        sums.pull += weight * share * above / terms[i].variance;
        sums.precision += weight * share / terms[i].variance;
        if constexpr (likelihood) {
            sums.log_likelihood += weight * std::log(core + model::stray);
            if (share > 0.5)
                used_.push_back(held_[i].degree);
        }
    }
    return sums;
}

std::size_t SetFit::count_used(const LibraryScale& scale) {
    constexpr std::size_t bits = 64;
    if (scale.period > 0 && scale.degrees.size() <= bits) {
        std::uint64_t degrees = 0;
        for (const std::size_t degree : used_)
            degrees |= std::uint64_t{1} << degree;
        return static_cast<std::size_t>(std::popcount(degrees));
    }
    std::sort(used_.begin(), used_.end());
    used_.erase(std::unique(used_.begin(), used_.end()), used_.end());
    return used_.size();
}

/// Degrees that nothing lies on; of a set that does not repeat only those within the pitches' range
/// can be missed.
std::size_t SetFit::count_unused(const LibraryScale& scale, double shift, std::size_t used) const {
    if (scale.period > 0)
        return scale.degrees.size() - used;
    std::size_t unused = 0;
    for (std::size_t i = 0; i < scale.degrees.size(); ++i) {
        const double at = scale.degrees[i] + shift;
        const bool in_range = at > lowest_ && at < highest_;
        unused += in_range && !std::binary_search(used_.begin(), used_.end(), i) ? 1 : 0;
    }
    return unused;
}

/// True where every pitch is a degree but for its rounding and the error of its measurement.
bool SetFit::lies_exactly(const LibraryScale& scale, double shift) {
    constexpr double farthest = 10; // standard deviations
    for (std::size_t i = 0; i < set_.size(); ++i) {
        const double variance = model::spreads[0] * model::spreads[0] + set_[i].variance;
        if (!(std::abs(scale.above(set_[i].cents - shift, start_[i]))
              < farthest * std::sqrt(variance)))
            return false;
    }
    return true;
}

/// The evidence for one spread, integrated over the shift by the normal approximation about its
/// optimum; `shift` is moved there.
double SetFit::evidence(const LibraryScale& scale, double& shift, std::size_t spread,
                        const Size& size) {
    held_ = start_;
    for (int i = 0; i < refinement_steps; ++i) {
        const Sums sums = sums_at<false>(scale, shift, spread, size);
        const double moved = shift + (sums.precision > 0 ? sums.pull / sums.precision : 0);
        if (moved == shift)
            break;
        shift = moved;
    }
    used_.clear();
    const Sums sums = sums_at<true>(scale, shift, spread, size);
    const double width = 1 / std::sqrt(std::max(sums.precision, 1e-6));
    const std::size_t used = count_used(scale);
    return sums.log_likelihood + std::log(root_of_two_pi * width)
           + log_without_repetition(scale.degrees.size(), used, size.log_count)
           + log_unused * static_cast<double>(count_unused(scale, shift, used));
}

Placement SetFit::refined(const LibraryScale& scale, double shift) {
    Placement best;
    const Size& size = size_of(scale);
    logs_.clear();
    for (std::size_t i = 0; i < set_.size(); ++i)
        scale.above(set_[i].cents - shift, start_[i] = {});
    for (std::size_t i = 0; i < spreads_.size(); ++i) {
        double moved = shift;
        const bool foreign = spreads_[i].size == model::spreads[0] && !lies_exactly(scale, shift);
        logs_.push_back(foreign ? -std::numeric_limits<double>::infinity()
                                : evidence(scale, moved, i, size));
        if (logs_.size() == 1 || logs_.back() > best.log_evidence)
            best = {moved, logs_.back(), spreads_[i].size};
    }
    // Of fewer spreads those of practice are meant, the last ones.
    const std::size_t left_out = std::size(model::spreads) - spreads_.size();
    double sum = 0;
    for (std::size_t i = 0; i < logs_.size(); ++i) {
        const double share = logs_.size() == 1 ? 1 : model::spread_shares[i + left_out];
        sum += share * std::exp(logs_[i] - best.log_evidence);
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
