#include <sectio/base/limits.hpp>
#include <sectio/scale/half_width.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/one_period.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

/// The pitches that are one degree; the first is the one that others are compared with.
using Group = std::vector<const ListedPitch*>;

Interval left_by_errors(const ListedPitch& a, const ListedPitch& b) {
    return half_width_between(a.above, b.above).value_or(Interval());
}

/// From `a` up to `b`, whole periods taken off: at most half of one.
Interval apart(const ListedPitch& a, const ListedPitch& b, const Interval& period) {
    const Interval all = b.above.figure - a.above.figure;
    return all - whole_periods(all + period * Rational(1, 2), period) * period;
}

/// Pitches less than half a period apart are of one period, and stay what they are.
bool joins(const Group& group, const ListedPitch& pitch, const PitchList& list) {
    const Interval far = *list.period * Rational(1, 2);
    return std::all_of(group.begin(), group.end(),
                       [&](const ListedPitch* p) {
                           return absolute(pitch.above.figure - p->above.figure) > far;
                       })
           && absolute(apart(*group.front(), pitch, *list.period))
                  <= std::max(*list.same_within, left_by_errors(*group.front(), pitch));
}

/// Which pairs need not be looked at, by doubles with room for their errors: a millionth of a
/// period.
class Neighbours {
  public:
    explicit Neighbours(const PitchList& list) : period_(list.period->estimate().value) {
        double widest = 0;
        for (const ListedPitch& pitch : list.pitches)
            if (pitch.above.half_width)
                widest = std::max(widest, pitch.above.half_width->estimate().value);
        reach_ = std::max(list.same_within->estimate().value, 2 * widest) / period_ + 1e-6;
    }

    /// Where in the period, from 0 to 1.
    double place(const ListedPitch& pitch) const {
        const double periods = pitch.above.figure.estimate().value / period_;
        return periods - std::floor(periods);
    }
    bool far(double a, double b) const {
        const double apart = std::abs(a - b);
        return std::min(apart, 1 - apart) > reach_;
    }

  private:
    double period_, reach_ = 0;
};

std::vector<Group> groups_of(const PitchList& list) {
    const Neighbours neighbours(list);
    std::vector<Group> groups;
    std::vector<double> places;
    const auto away = [&](const Group& group, const ListedPitch& pitch) {
        return absolute(apart(*group.front(), pitch, *list.period));
    };
    for (const ListedPitch& pitch : list.pitches) {
        const double place = neighbours.place(pitch);
        Group* nearest = nullptr;
        for (std::size_t i = 0; i < groups.size(); ++i)
            if (!neighbours.far(place, places[i]) && joins(groups[i], pitch, list)
                && (!nearest || away(groups[i], pitch) < away(*nearest, pitch)))
                nearest = &groups[i];
        if (nearest) {
            nearest->push_back(&pitch);
            continue;
        }
        groups.push_back({&pitch});
        places.push_back(place);
    }
    return groups;
}

/// The tonic, which others are counted from, else the one that is known best.
const ListedPitch& kept_of(const Group& group, const ListedPitch& tonic) {
    const auto order = [&](const ListedPitch* pitch) {
        const bool is_tonic = pitch->above.figure == tonic.above.figure;
        return is_tonic ? Interval() - Interval::octave()
                        : pitch->above.half_width.value_or(Interval());
    };
    return **std::min_element(
        group.begin(), group.end(),
        [&](const ListedPitch* a, const ListedPitch* b) { return order(a) < order(b); });
}

std::string name_of(const ListedPitch& pitch) {
    return pitch.label.empty() ? pitch.written : pitch.label;
}

} // namespace

Interval above_tonic(const ListedPitch& pitch, const ListedPitch& tonic, const PitchList& list) {
    const Interval above = pitch.above.figure - tonic.above.figure;
    return list.period ? reduced(above, *list.period) : above;
}

std::vector<ListedPitch> one_a_degree(const PitchList& list, const ListedPitch& tonic,
                                      std::vector<std::string>& remarks) {
    if (list.pitches.size() > limits::scale_degrees)
        throw error(message::too_many_degrees, "", {}, limits::scale_degrees);
    std::vector<ListedPitch> pitches;
    for (const Group& group : groups_of(list)) {
        const ListedPitch& kept = kept_of(group, tonic);
        ListedPitch degree = kept;
        for (const ListedPitch* other : group) {
            const Interval difference = apart(kept, *other, *list.period);
            if (absolute(difference) <= left_by_errors(kept, *other))
                continue;
            remarks.push_back(fmt::format(
                "{} lies {} cents {} {}, whole periods taken off: one degree stands for both.",
                name_of(*other), absolute(difference).cents(1),
                difference < Interval() ? "below" : "above", name_of(kept)));
            if (kept.above.half_width && kept.above.figure != tonic.above.figure)
                degree.above.half_width = std::max(*degree.above.half_width, absolute(difference));
        }
        pitches.push_back(std::move(degree));
    }
    return pitches;
}

} // namespace sectio
