#include <sectio/print/split_rows.hpp>

#include <algorithm>
#include <functional>
#include <numeric>

namespace sectio::page {

namespace {

/// Below this share a last page is called nearly empty.
constexpr double nearly_empty = 1.0 / 3;

/// Ranges from row `begin` on, each filled as far as its room goes.
std::vector<RowRange> filled(const std::vector<double>& heights, std::size_t begin,
                             const std::function<double(std::size_t)>& room) {
    std::vector<RowRange> ranges;
    while (begin < heights.size()) {
        const double most = room(ranges.size());
        std::size_t end = begin + 1;
        double used = heights[begin];
        while (end < heights.size() && used + heights[end] <= most)
            used += heights[end++];
        ranges.push_back({begin, end});
        begin = end;
    }
    return ranges;
}

/// The rows from those of range `kept` on in `count` ranges as level as can be, none higher than
/// `room` allows.
void level_last(std::vector<RowRange>& ranges, std::size_t kept, std::size_t count,
                const std::vector<double>& heights,
                const std::function<double(std::size_t)>& room) {
    const std::size_t begin = ranges[kept].begin;
    const auto at_most = [&](double most) {
        return filled(heights, begin,
                      [&](std::size_t slot) { return std::min(most, room(kept + slot)); });
    };
    double high = height_of({begin, heights.size()}, heights), low = 0;
    std::vector<RowRange> best = at_most(high);
    constexpr int halvings = 12; // to a fraction of a row
    for (int i = 0; i < halvings; ++i) {
        const double most = (low + high) / 2;
        auto tried = at_most(most);
        if (tried.size() <= count)
            best = std::move(tried), high = most;
        else
            low = most;
    }
    ranges.resize(kept);
    ranges.insert(ranges.end(), best.begin(), best.end());
}

} // namespace

double height_of(const RowRange& range, const std::vector<double>& heights) {
    const auto at = [&](std::size_t row) {
        return heights.begin() + static_cast<std::ptrdiff_t>(row);
    };
    return std::accumulate(at(range.begin), at(range.end), 0.0);
}

std::vector<RowRange> split_rows(const std::vector<double>& heights, std::size_t across,
                                 double first_room, double room) {
    const auto room_of = [&](std::size_t slot) { return slot < across ? first_room : room; };
    auto ranges = filled(heights, 0, room_of);
    if (ranges.empty())
        return ranges;
    const std::size_t last_page = (ranges.size() - 1) / across * across;
    if (across > 1)
        level_last(ranges, last_page, across, heights, room_of);
    else if (last_page > 0 && height_of(ranges.back(), heights) < nearly_empty * room_of(last_page))
        level_last(ranges, last_page - 1, 2, heights, room_of);
    return ranges;
}

} // namespace sectio::page
