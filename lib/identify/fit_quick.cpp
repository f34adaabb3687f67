#include <sectio/identify/fit.hpp>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

/// Spread at which the quick score looks: that of 10 cents, where the pitch that proposes the place
/// is itself as far off, √2 times 10.
constexpr double quick_spread = 14;
/// Pitches whose coincidence with a degree proposes a place. With five, one of them is no stray
/// unless all five are: 3 in ten million at a share of 0.05.
constexpr std::size_t most_anchors = 5;
/// Places closer than this, in cents, are one: the refinement moves as far.
constexpr double one_place = 12;
/// A place whose quick score is this far below the scale's best is left out: e^-8 of its weight.
constexpr double quick_range = 8;
/// In cents. Where every pitch lies within this, narrow spreads may say more than the quick score.
constexpr double close = 8;
/// More than the last digits of a sum of weights are off.
constexpr double last_digits = 1e-6;

double within(double period, double cents) {
    return period > 0 ? cents - period * periods_below(cents, period) : cents;
}

/// Of places in the first period.
double distance_on(double period, double a, double b) {
    const double d = std::abs(a - b);
    return period > 0 ? std::min(d, period - d) : d;
}

/// Better scores first, then lower shifts.
constexpr auto goes_before = [](const Placement& a, const Placement& b) {
    return a.log_evidence != b.log_evidence ? a.log_evidence > b.log_evidence : a.shift < b.shift;
};

} // namespace

std::vector<PitchOfSet> anchors_of(const std::vector<PitchOfSet>& set) {
    std::vector<PitchOfSet> anchors = set;
    std::stable_sort(anchors.begin(), anchors.end(),
                     [](const PitchOfSet& a, const PitchOfSet& b) { return a.weight > b.weight; });
    anchors.resize(std::min(anchors.size(), most_anchors));
    return anchors;
}

const PitchSetFit::QuickSet& PitchSetFit::quick_set(const LibraryScale& scale) {
    if (quick_ && quick_->size_class == scale.size_class)
        return *quick_;
    QuickSet& quick = quick_ ? *quick_ : quick_.emplace();
    quick.size_class = scale.size_class;
    quick.peak = log_peak(scale, quick_spread);
    quick.drawn = size_of(scale).log_drawn;
    for (std::size_t used = 0; scale.period > 0 && used < quick.drawn.size(); ++used)
        quick.drawn[used] += model::log_unused * static_cast<double>(scale.degrees.size() - used);
    quick.most_drawn = *std::max_element(quick.drawn.begin(), quick.drawn.end());
    quick.drawn.resize(set_.size() + 1, quick.drawn.back());
    quick.pitches.clear();
    for (const PitchOfSet& p : set_) {
        const double sharpness = 1 / (2 * (quick_spread * quick_spread + p.variance));
        quick.pitches.push_back(
            {within(scale.period, p.cents), p.weight, static_cast<float>(sharpness), 0});
    }
    double left = last_digits;
    for (std::size_t i = set_.size(); i-- > 0;)
        quick.pitches[i].left = (left += set_[i].weight) * quick.peak;
    return quick;
}

/// Adds the shifts, in the first period, that let the pitch lie on each degree.
void PitchSetFit::anchor(const LibraryScale& scale, double cents) {
    const double repeat = scale.repeat();
    for (std::size_t degree = 0; degree < scale.repeats_after; ++degree)
        shifts_.push_back(within(repeat, cents - scale.degrees[degree]));
}

/// The last is repeated where there are no more.
Lanes PitchSetFit::shifts_from(std::size_t first) const {
    Lanes shifts;
    for (std::size_t lane = 0; lane < lanes; ++lane)
        shifts[lane] = shifts_[std::min(first + lane, shifts_.size() - 1)];
    return shifts;
}

const std::vector<double>& PitchSetFit::close_shifts(const LibraryScale& scale) {
    const QuickSet& set = quick_set(scale);
    close_.clear();
    shifts_.clear();
    anchor(scale, set_.front().cents);
    for (std::size_t first = 0; first < shifts_.size(); first += lanes) {
        Lanes nudged = shifts_from(first);
        for (double& shift : nudged)
            shift -= last_digits;
        const Lanes farthest = farthest_of(scale, set.pitches, nudged, close);
        for (std::size_t i = first; i < std::min(first + lanes, shifts_.size()); ++i)
            if (farthest[i - first] <= close)
                close_.push_back(shifts_[i]);
    }
    return close_;
}

double PitchSetFit::best_quick(const LibraryScale& scale) {
    const QuickSet& set = quick_set(scale);
    return weight_ * std::max(0.0, set.peak) + set.most_drawn;
}

const std::vector<Placement>& PitchSetFit::quick_placements(const LibraryScale& scale,
                                                            std::size_t most, double least) {
    const QuickSet& set = quick_set(scale);
    tried_.clear();
    shifts_.clear();
    const double repeat = scale.repeat();
    for (const PitchOfSet& pitch : anchors_)
        anchor(scale, pitch.cents);
    for (std::size_t first = 0; first < shifts_.size(); first += lanes) {
        Lanes scores{}, matched{};
        add_gains(scale, set.pitches, set.peak, shifts_from(first), least - set.most_drawn, scores,
                  matched);
        for (std::size_t i = first; i < std::min(first + lanes, shifts_.size()); ++i) {
            const double score =
                scores[i - first] + set.drawn[static_cast<std::size_t>(matched[i - first])];
            least = std::max(least, score - quick_range);
            if (score >= least)
                tried_.push_back({shifts_[i], score, quick_spread});
        }
    }
    std::erase_if(tried_, [&](const Placement& place) { return place.log_evidence < least; });
    std::sort(tried_.begin(), tried_.end(), goes_before);
    kept_.clear();
    for (const Placement& place : tried_) {
        if (kept_.size() == most)
            break;
        if (std::none_of(kept_.begin(), kept_.end(), [&](const Placement& k) {
                return distance_on(repeat, k.shift, place.shift) < one_place;
            }))
            kept_.push_back(place);
    }
    return kept_;
}

} // namespace sectio
