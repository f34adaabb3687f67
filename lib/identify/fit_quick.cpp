#include <sectio/identify/fit.hpp>

#include <algorithm>
#include <cmath>

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
/// More than the last digits of a sum of weights are off.
constexpr double last_digits = 1e-6;

double in_period(const LibraryScale& scale, double cents) {
    return scale.period > 0 ? cents - scale.period * periods_below(cents, scale.period) : cents;
}

/// Of places in the first period.
double distance_on(const LibraryScale& scale, double a, double b) {
    const double d = std::abs(a - b);
    return scale.period > 0 ? std::min(d, scale.period - d) : d;
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

/// Pitches of one weight and one uncertainty that stand together share what they gain.
const PitchSetFit::QuickSet& PitchSetFit::quick_set(const LibraryScale& scale) {
    if (quick_ && quick_->size_class == scale.size_class)
        return *quick_;
    QuickSet& quick = quick_ ? *quick_ : quick_.emplace();
    quick.size_class = scale.size_class;
    quick.peak = log_peak(scale, quick_spread);
    quick.pitches.clear();
    quick.gains.clear();
    for (std::size_t i = 0; i < set_.size(); ++i) {
        const PitchOfSet& p = set_[i];
        if (i == 0 || p.weight != set_[i - 1].weight || p.variance != set_[i - 1].variance) {
            const double sharpness = 1 / (2 * (quick_spread * quick_spread + p.variance));
            double distance = 0;
            for (double& gained : quick.gains.emplace_back()) {
                gained = p.weight * std::max(quick.peak - distance * distance * sharpness, 0.0);
                ++distance;
            }
        }
        quick.pitches.push_back(
            {in_period(scale, p.cents) - scale.distance_begin, 0, quick.gains.size() - 1});
    }
    double left = last_digits;
    for (std::size_t i = set_.size(); i-- > 0;)
        quick.pitches[i].left = (left += set_[i].weight) * quick.peak;
    return quick;
}

/// The quick score looks pitches up in whole cents. `shift` lies in the first period. What cannot
/// come to `least` any more is left as it is.
double PitchSetFit::quick_score(const LibraryScale& scale, const QuickSet& set, double shift,
                                double least) {
    double score = 0;
    const double circle = scale.circle();
    const std::uint8_t* const distance = scale.distance.data();
    for (const QuickPitch& pitch : set.pitches) {
        if (score + pitch.left < least)
            return score;
        double at = pitch.at - shift;
        at += at < 0 ? scale.period : 0;
        if (at >= 0 && at < circle)
            score += set.gains[pitch.gains][distance[static_cast<int>(at)]];
    }
    return score;
}

double PitchSetFit::best_quick(const LibraryScale& scale) {
    return weight_ * std::max(0.0, quick_set(scale).peak);
}

const std::vector<Placement>& PitchSetFit::quick_placements(const LibraryScale& scale,
                                                            std::size_t most, double least) {
    const QuickSet& set = quick_set(scale);
    tried_.clear();
    for (const PitchOfSet& anchor : anchors_)
        for (const double degree : scale.degrees) {
            const double shift = in_period(scale, anchor.cents - degree);
            const double score = quick_score(scale, set, shift, least);
            least = std::max(least, score - quick_range);
            if (score >= least)
                tried_.push_back({shift, score, quick_spread});
        }
    std::erase_if(tried_, [&](const Placement& place) { return place.log_evidence < least; });
    std::sort(tried_.begin(), tried_.end(), goes_before);
    kept_.clear();
    for (const Placement& place : tried_) {
        if (kept_.size() == most)
            break;
        if (std::none_of(kept_.begin(), kept_.end(), [&](const Placement& k) {
                return distance_on(scale, k.shift, place.shift) < one_place;
            }))
            kept_.push_back(place);
    }
    return kept_;
}

} // namespace sectio
