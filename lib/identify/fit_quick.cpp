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
constexpr int close = 8;
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

/// Pitches of one weight and one uncertainty that stand together share what they gain.
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
            {within(scale.period, p.cents) - scale.distance_begin, 0, quick.gains.size() - 1});
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
    std::size_t matched = 0;
    least -= set.most_drawn;
    const double circle = scale.circle();
    const std::uint8_t* const distance = scale.distance.data();
    for (const QuickPitch& pitch : set.pitches) {
        if (score + pitch.left < least)
            return score + set.most_drawn;
        double at = pitch.at - shift;
        at += at < 0 ? scale.period : 0;
        if (at >= 0 && at < circle) {
            const double gain = set.gains[pitch.gains][distance[static_cast<int>(at)]];
            score += gain;
            matched += gain > 0 ? 1 : 0;
        }
    }
    return score + set.drawn[matched];
}

const std::vector<double>& PitchSetFit::close_shifts(const LibraryScale& scale) {
    const QuickSet& set = quick_set(scale);
    close_.clear();
    for (std::size_t degree = 0; degree < scale.repeats_after; ++degree) {
        const double shift = within(scale.repeat(), set_.front().cents - scale.degrees[degree]);
        if (std::all_of(set.pitches.begin(), set.pitches.end(), [&](const QuickPitch& pitch) {
                double at = pitch.at - shift + last_digits;
                at += at < 0 ? scale.period : 0;
                return at >= 0 && at < scale.circle()
                       && scale.distance[static_cast<std::size_t>(at)] <= close;
            }))
            close_.push_back(shift);
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
    const double repeat = scale.repeat();
    for (const PitchOfSet& anchor : anchors_)
        for (std::size_t degree = 0; degree < scale.repeats_after; ++degree) {
            const double shift = within(repeat, anchor.cents - scale.degrees[degree]);
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
                return distance_on(repeat, k.shift, place.shift) < one_place;
            }))
            kept_.push_back(place);
    }
    return kept_;
}

} // namespace sectio
