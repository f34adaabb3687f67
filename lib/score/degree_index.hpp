#pragma once
/// @file
/// Private to lib/score: degrees by their places, so that the nearest are found without a look at
/// all of them.

#include <sectio/scale/scale.hpp>

#include <optional>
#include <vector>

namespace sectio::score {

/// A degree that lies near a place.
struct NearDegree {
    std::size_t degree;
    Interval interval; ///< of the degree in the period where it lies nearest to the place
    Interval error;    ///< between the two, not negative
};

class DegreeIndex {
  public:
    /// Without a period the degrees stand once, else in every period.
    explicit DegreeIndex(std::optional<Interval> period) : period_(std::move(period)) {}

    void add(std::size_t degree, const Interval& interval);
    /// To be called once, after the last add().
    void sort();

    /// The nearest degree (of equally near ones the lowest number) first, then the next nearest, at
    /// most two; empty only where there is no degree.
    std::vector<NearDegree> nearest(const Interval& place) const;

  private:
    struct Entry {
        Interval place; ///< within the period
        std::size_t degree;
    };
    NearDegree near(const Entry& entry, const Interval& place) const;

    std::optional<Interval> period_;
    std::vector<Entry> entries_;
};

} // namespace sectio::score
