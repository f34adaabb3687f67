#include <sectio/identify/fit.hpp>
#include <sectio/identify/log_factorial.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>

namespace sectio {

namespace {

constexpr int refinement_steps = 3;
const double root_of_two_pi = std::sqrt(2 * std::numbers::pi);

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

} // namespace

PitchSetFit::PitchSetFit(const std::vector<PitchOfSet>& set, const std::vector<double>& spreads)
    : set_(set), anchors_(anchors_of(set)), spreads_(spreads), held_(set.size()) {
    const auto [low, high] =
        std::minmax_element(set.begin(), set.end(), [](const PitchOfSet& a, const PitchOfSet& b) {
            return a.cents < b.cents;
        });
    lowest_ = low->cents;
    highest_ = high->cents;
    weight_ = std::accumulate(set.begin(), set.end(), 0.0,
                              [](double sum, const PitchOfSet& p) { return sum + p.weight; });
    for (const PitchOfSet& pitch : set) {
        LanePitch& laid = pitches_.emplace_back(LanePitch{pitch.cents, pitch.weight, {}});
        for (std::size_t i = 0; i < spreads.size(); ++i)
            laid.precision[i] = 1 / (spreads[i] * spreads[i] + pitch.variance);
    }
}

/// What scattered pitches would be spread over: the period, or for a scale that does not repeat the
/// range of the pitches themselves, so that all scales are judged against the same outliers.
double PitchSetFit::strewn_over(const LibraryScale& scale) const {
    return scale.period > 0 ? scale.period : std::max(1200.0, highest_ - lowest_);
}

/// log of the peak of the core over the level of outliers, for one pitch.
double PitchSetFit::log_peak(const LibraryScale& scale, double sigma) const {
    return std::log((1 - model::stray) / model::stray * strewn_over(scale)
                    / (static_cast<double>(scale.degrees.size()) * sigma * root_of_two_pi));
}

const PitchSetFit::Size& PitchSetFit::size_of(const LibraryScale& scale) {
    if (sizes_.size() <= scale.size_class)
        sizes_.resize(scale.size_class + 1);
    Size& size = sizes_[scale.size_class];
    if (!size.peaks.empty())
        return size;
    const std::size_t count = scale.degrees.size();
    const double per_degree =
        (1 - model::stray) * strewn_over(scale) / (static_cast<double>(count) * root_of_two_pi);
    for (const LanePitch& pitch : pitches_) {
        Lanes& peaks = size.peaks.emplace_back();
        for (std::size_t i = 0; i < lanes; ++i)
            peaks[i] = per_degree * std::sqrt(pitch.precision[i]);
    }
    const double log_count = std::log(static_cast<double>(count));
    for (std::size_t used = 0; used <= std::min(count, set_.size()); ++used)
        size.log_drawn.push_back(log_without_repetition(count, used, log_count));
    return size;
}

std::size_t PitchSetFit::count_unused(const LibraryScale& scale, double shift,
                                      std::size_t spread) const {
    std::size_t unused = 0;
    for (std::size_t i = 0; i < scale.degrees.size(); ++i) {
        const double at = scale.degrees[i] + shift;
        unused += at > lowest_ && at < highest_ && !holds(used_, i, spread) ? 1 : 0;
    }
    return unused;
}

/// True where every pitch is a degree but for its rounding and the error of its measurement.
bool PitchSetFit::lies_exactly(const LibraryScale& scale, double shift) {
    constexpr double farthest = 10; // standard deviations
    for (std::size_t i = 0; i < set_.size(); ++i) {
        const double variance = model::spreads[0] * model::spreads[0] + set_[i].variance;
        if (!(std::abs(scale.above(set_[i].cents - shift, held_[i]))
              < farthest * std::sqrt(variance)))
            return false;
    }
    return true;
}

/// The evidence for one spread, integrated over the shift by the normal approximation about its
/// optimum. Of a set that does not repeat only degrees within the pitches' range can be missed.
double PitchSetFit::evidence(const LibraryScale& scale, const Size& size, const LaneTotals& totals,
                             double shift, std::size_t spread) const {
    const double width = root_of_two_pi / std::sqrt(std::max(totals.precision[spread], 1e-6));
    const std::size_t used = count_of(used_, spread);
    const std::size_t unused =
        scale.period > 0 ? scale.degrees.size() - used : count_unused(scale, shift, spread);
    return totals.log_likelihood[spread] + std::log(totals.likelihood[spread] * width)
           + size.log_drawn[used] + model::log_unused * static_cast<double>(unused);
}

Placement PitchSetFit::refined(const LibraryScale& scale, double shift) {
    const Size& size = size_of(scale);
    for (std::size_t i = 0; i < set_.size(); ++i)
        scale.above(set_[i].cents - shift, held_[i] = {});
    const bool foreign = !lies_exactly(scale, shift);
    Lanes shifts;
    shifts.fill(shift);
    follow_pulls(scale, pitches_, held_, size.peaks, refinement_steps, shifts);
    const LaneTotals totals = added_up(scale, pitches_, held_, size.peaks, shifts, used_);
    Placement best;
    logs_.clear();
    for (std::size_t i = 0; i < spreads_.size(); ++i) {
        logs_.push_back(foreign && spreads_[i] == model::spreads[0]
                            ? -std::numeric_limits<double>::infinity()
                            : evidence(scale, size, totals, shifts[i], i));
        if (logs_.size() == 1 || logs_.back() > best.log_evidence)
            best = {shifts[i], logs_.back(), spreads_[i]};
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

std::vector<PitchFit> PitchSetFit::pitch_fits(const LibraryScale& scale,
                                              const Placement& placement) const {
    std::vector<PitchFit> fits;
    for (const PitchOfSet& pitch : set_) {
        const double variance = placement.spread * placement.spread + pitch.variance;
        const auto near = scale.nearest(pitch.cents - placement.shift);
        const double gain =
            log_peak(scale, std::sqrt(variance)) - near.above * near.above / (2 * variance);
        fits.push_back({near.degree, near.above, gain > 0});
    }
    return fits;
}

} // namespace sectio
