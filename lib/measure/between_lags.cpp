#include <sectio/measure/between_lags.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace sectio::measure {

namespace {

constexpr std::size_t taps_aside = 8, parts = 4;
/// The values are those of lags -7 … 8 from the whole lag below.
using Taps = std::array<float, 2 * taps_aside>;

double sinc(double x) {
    return x == 0 ? 1 : std::sin(std::numbers::pi * x) / (std::numbers::pi * x);
}

/// Summing to 1, so that a function that hardly changes keeps its height between the lags.
Taps lanczos_taps(double part) {
    std::array<double, 2 * taps_aside> weights{};
    double sum = 0;
    for (std::size_t i = 0; i < weights.size(); ++i) {
        const double x = static_cast<double>(i) - (taps_aside - 1) - part;
        weights[i] = std::abs(x) < taps_aside ? sinc(x) * sinc(x / taps_aside) : 0;
        sum += weights[i];
    }
    Taps taps;
    std::transform(weights.begin(), weights.end(), taps.begin(),
                   [sum](double weight) { return static_cast<float>(weight / sum); });
    return taps;
}

/// The function at a number of quarters of a lag.
float at_quarter(std::span<const float> function, std::size_t quarter) {
    static const std::array<Taps, parts> taps = {lanczos_taps(0), lanczos_taps(0.25),
                                                 lanczos_taps(0.5), lanczos_taps(0.75)};
    const std::size_t below = quarter / parts;
    const Taps& these = taps[quarter % parts];
    float sum = 0;
    for (std::size_t i = 0; i < these.size(); ++i) {
        const std::size_t lag = below + i;
        sum += these[i]
               * function[lag >= taps_aside - 1 ? lag - (taps_aside - 1) : taps_aside - 1 - lag];
    }
    return sum;
}

/// The top of the parabola through three values, as an offset from the middle one.
float parabola_offset(float before, float middle, float after) {
    const float curve = before - 2 * middle + after;
    return curve >= 0 ? 0.0F : std::clamp(0.5F * (before - after) / curve, -0.5F, 0.5F);
}

Top top_of(float middle_lag, float step, float before, float middle, float after) {
    const float offset = parabola_offset(before, middle, after);
    return {middle_lag + step * offset, middle - 0.25F * (before - after) * offset};
}

} // namespace

Top top_near(std::span<const float> function, std::size_t lag) {
    const Top rough =
        top_of(static_cast<float>(lag), 1, function[lag - 1], function[lag], function[lag + 1]);
    if (lag + taps_aside + 1 >= function.size())
        return rough;
    auto quarter = static_cast<std::size_t>(std::lround(parts * rough.lag));
    float before = at_quarter(function, quarter - 1), middle = at_quarter(function, quarter),
          after = at_quarter(function, quarter + 1);
    // The parabola may be off by a quarter: one step uphill.
    if (after > middle && after > before) {
        ++quarter;
        before = middle, middle = after, after = at_quarter(function, quarter + 1);
    } else if (before > middle) {
        --quarter;
        after = middle, middle = before, before = at_quarter(function, quarter - 1);
    }
    constexpr float step = 1.0F / parts;
    return top_of(static_cast<float>(quarter) * step, step, before, middle, after);
}

} // namespace sectio::measure
