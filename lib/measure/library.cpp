#include <sectio/measure/library.hpp>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

/// Farther from a degree than this nothing is told apart any more.
constexpr double farthest = 255;
/// A set that does not repeat is compared this far beyond its ends.
constexpr double margin = 255;

double cents_of(const Interval& interval) {
    return interval.estimate().value * 1200;
}

void fill_distances(LibraryScale& scale) {
    const double span = scale.period > 0 ? scale.period : scale.degrees.back() + 2 * margin;
    scale.distance_begin = scale.period > 0 ? 0 : -margin;
    scale.distance.resize(static_cast<std::size_t>(std::ceil(span)));
    for (std::size_t i = 0; i < scale.distance.size(); ++i) {
        const double cents = scale.distance_begin + static_cast<double>(i);
        scale.distance[i] = static_cast<std::uint8_t>(
            std::min(farthest, std::round(std::abs(scale.nearest(cents).above))));
    }
}

} // namespace

LibraryScale::Nearest LibraryScale::nearest(double cents) const {
    if (period > 0)
        cents -= period * std::floor(cents / period);
    const auto up = std::upper_bound(degrees.begin(), degrees.end(), cents);
    const auto index = static_cast<std::size_t>(up - degrees.begin());
    // Below: the degree before, or the last one a period lower; above: the next, or the first.
    Nearest best{index > 0 ? index - 1 : 0, cents - degrees[index > 0 ? index - 1 : 0]};
    if (up != degrees.end() && *up - cents < std::abs(best.above))
        best = {index, cents - *up};
    if (up == degrees.end() && period > 0 && period - cents < best.above)
        best = {0, cents - period};
    return best;
}

ScaleLibrary::ScaleLibrary(const std::vector<Entry>& entries) {
    for (const Entry& entry : entries) {
        if (!entry.scale || entry.scale->degrees.size() < 2)
            continue;
        LibraryScale scale;
        scale.entry = entry;
        scale.period = entry.scale->period ? cents_of(*entry.scale->period) : 0;
        for (const Degree& degree : entry.scale->degrees)
            scale.degrees.push_back(cents_of(degree.interval));
        fill_distances(scale);
        scales_.push_back(std::move(scale));
    }
}

const ScaleLibrary& ScaleLibrary::installed() {
    static const ScaleLibrary library(Catalogue::installed().all());
    return library;
}

bool same_pitches(const Scale& a, std::size_t shift, const Scale& b) {
    const std::size_t count = a.degrees.size();
    if (count != b.degrees.size() || a.period != b.period || (shift > 0 && !a.period))
        return false;
    for (std::size_t i = 0; i < count; ++i) {
        const std::size_t j = i + shift;
        Interval degree = a.degrees[j % count].interval - a.degrees[shift].interval;
        if (j >= count)
            degree += *a.period;
        if (degree != b.degrees[i].interval)
            return false;
    }
    return true;
}

} // namespace sectio
