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
    constexpr long bits = 192;
    return (a.octaves(bits) / b.octaves(bits)).estimate();
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

void screen(const std::vector<TargetClass>& classes, double first, ScreenBlock& block) {
    std::array<double, screen_block> steps;
    for (std::size_t i = 0; i < screen_block; ++i)
        steps[i] = first + static_cast<double>(i);
    block.worst.fill(0);
    block.squares.fill(0);
    for (const TargetClass& target : classes) {
        const double place = target.place, weight = target.weight;
        for (std::size_t i = 0; i < screen_block; ++i) {
            const double error = screened_error(steps[i], place), size = std::fabs(error);
            block.worst[i] = block.worst[i] < size ? size : block.worst[i];
            block.squares[i] += weight * (error * error);
        }
    }
}

} // namespace sectio
