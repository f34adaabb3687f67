#include <sectio/score/degree_index.hpp>

#include <algorithm>

namespace sectio::score {

void DegreeIndex::add(std::size_t degree, const Interval& interval) {
    entries_.push_back({period_ ? reduced(interval, *period_) : interval, degree});
}

void DegreeIndex::sort() {
    std::stable_sort(entries_.begin(), entries_.end(),
                     [](const Entry& a, const Entry& b) { return a.place < b.place; });
}

NearDegree DegreeIndex::near(const Entry& entry, const Interval& place) const {
    Interval interval = entry.place;
    if (period_)
        interval +=
            whole_periods(place - interval + *period_ * Rational(1, 2), *period_) * *period_;
    return {entry.degree, interval, absolute(place - interval)};
}

std::vector<NearDegree> DegreeIndex::nearest(const Interval& place) const {
    // The two nearest are among two on each side; round the period the sides meet.
    const auto count = static_cast<std::ptrdiff_t>(entries_.size());
    const Interval wanted = period_ ? reduced(place, *period_) : place;
    const auto above =
        std::lower_bound(entries_.begin(), entries_.end(), wanted,
                         [](const Entry& entry, const Interval& at) { return entry.place < at; })
        - entries_.begin();
    std::vector<std::ptrdiff_t> beside;
    for (std::ptrdiff_t i = above - 2; i < above + 2; ++i)
        if (period_ ? count > 0 : i >= 0 && i < count)
            beside.push_back((i % count + count) % count);
    std::sort(beside.begin(), beside.end());
    beside.erase(std::unique(beside.begin(), beside.end()), beside.end());
    std::vector<NearDegree> found;
    for (const std::ptrdiff_t i : beside)
        found.push_back(near(entries_[static_cast<std::size_t>(i)], place));
    std::sort(found.begin(), found.end(), [](const NearDegree& a, const NearDegree& b) {
        return a.error == b.error ? a.degree < b.degree : a.error < b.error;
    });
    found.erase(found.begin() + std::min<std::ptrdiff_t>(2, std::ssize(found)), found.end());
    return found;
}

} // namespace sectio::score
