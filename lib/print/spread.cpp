#include <sectio/print/spread.hpp>

#include <algorithm>
#include <cmath>

namespace sectio::page {

namespace {

/// Blocks of neighbours that share one mean, merged while they fall: isotonic regression by the
/// pool-adjacent-violators rule (R. Barlow et al., Statistical Inference under Order Restrictions,
/// 1972).
std::vector<double> isotonic(const std::vector<double>& values) {
    struct Pool {
        double sum;
        std::size_t count;
        double mean() const { return sum / static_cast<double>(count); }
    };
    std::vector<Pool> pools;
    for (const double value : values) {
        pools.push_back({value, 1});
        while (pools.size() > 1 && pools[pools.size() - 2].mean() > pools.back().mean()) {
            const Pool last = pools.back();
            pools.pop_back();
            pools.back().sum += last.sum, pools.back().count += last.count;
        }
    }
    std::vector<double> fitted;
    for (const Pool& pool : pools)
        fitted.insert(fitted.end(), pool.count, pool.mean());
    return fitted;
}

} // namespace

std::vector<double> spread(const std::vector<double>& places, const std::vector<double>& widths,
                           double low, double high) {
    // With offset[i] the distance of label i from the first when all touch, labels do not overlap
    // exactly where middle - offset does not fall.
    std::vector<double> offsets(places.size()), free(places.size());
    for (std::size_t i = 1; i < places.size(); ++i)
        offsets[i] = offsets[i - 1] + (widths[i - 1] + widths[i]) / 2;
    for (std::size_t i = 0; i < places.size(); ++i)
        free[i] = places[i] - offsets[i];
    std::vector<double> middles = isotonic(free);
    for (std::size_t i = 0; i < places.size(); ++i) {
        const double least = low + widths.front() / 2;
        const double most = high - widths.back() / 2 - offsets.back();
        middles[i] = std::max(std::min(middles[i], most), least) + offsets[i];
    }
    return middles;
}

double mark_interval(double distance, long count, double least) {
    double interval = 1;
    for (int i = 0; interval * distance < least && interval < 1e15; ++i) {
        const double decade = std::pow(10, count <= 24 ? i / 3 : i / 2);
        const std::vector<double> ways =
            count <= 24 ? std::vector<double>{2, 5, 10} : std::vector<double>{5, 10};
        interval = decade * ways[static_cast<std::size_t>(i) % ways.size()];
    }
    return interval;
}

} // namespace sectio::page
