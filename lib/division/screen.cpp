#include <sectio/base/each_processor.hpp>
#include <sectio/division/screen.hpp>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

/// How far `target` lies from the nearest whole period.
Interval distance_from_periods(const Interval& target, const Interval& period) {
    const Interval up = reduced(target, period);
    return std::min(up, period - up);
}

} // namespace

double quotient_of_sizes(const Interval& a, const Interval& b) {
    if (a.is_unison())
        return 0;
    return certified_double([&](long bits) { return a.octaves(bits) / b.octaves(bits); });
}

std::vector<TargetClass> target_classes(const std::vector<Interval>& targets,
                                        const Interval& period) {
    std::vector<TargetClass> all;
    for (std::size_t i = 0; i < targets.size(); ++i) {
        Interval distance = distance_from_periods(targets[i], period);
        const double place = quotient_of_sizes(distance, period);
        all.push_back({std::move(distance), place, 1, i});
    }
    std::stable_sort(all.begin(), all.end(), [](const TargetClass& a, const TargetClass& b) {
        // Each place is next to the true quotient, which is at most 1/2.
        return std::fabs(a.place - b.place) > 0x1p-50 ? a.place < b.place : a.distance < b.distance;
    });
    std::vector<TargetClass> classes;
    for (TargetClass& next : all) {
        if (!classes.empty() && classes.back().distance == next.distance)
            ++classes.back().weight;
        else
            classes.push_back(std::move(next));
    }
    std::sort(classes.begin(), classes.end(), [](const TargetClass& a, const TargetClass& b) {
        return a.first_target < b.first_target;
    });
    return classes;
}

SECTIO_FOR_EACH_PROCESSOR
void screen(const std::vector<TargetClass>& classes, double first, ScreenBlock& block) {
    // So many divisions that sums and maxima of all targets stay in registers of 32 or 64 bytes.
    constexpr std::size_t tile = 32;
    static_assert(screen_block % tile == 0);
    for (std::size_t at = 0; at < screen_block; at += tile) {
        double steps[tile], worst[tile] = {}, squares[tile] = {};
        for (std::size_t i = 0; i < tile; ++i)
            steps[i] = first + static_cast<double>(at + i);
        for (const TargetClass& target : classes) {
            const double place = target.place, weight = target.weight;
            for (std::size_t i = 0; i < tile; ++i) {
                const double error = screened_error(steps[i], place), square = error * error;
                worst[i] = worst[i] < square ? square : worst[i];
                squares[i] += weight * square;
            }
        }
        std::copy_n(worst, tile, &block.worst[at]);
        std::copy_n(squares, tile, &block.squares[at]);
    }
}

SECTIO_FOR_EACH_PROCESSOR
bool any_within(const std::array<double, screen_block>& values, double first, double slope,
                double offset) {
    long found = 0;
    for (std::size_t i = 0; i < screen_block; ++i) {
        const double most = slope * (first + static_cast<double>(i)) + offset;
        found |= values[i] <= most * most;
    }
    return found != 0;
}

} // namespace sectio
