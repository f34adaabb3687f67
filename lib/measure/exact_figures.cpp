#include <sectio/measure/exact_figures.hpp>

#include <cmath>
#include <cstdint>
#include <numbers>

namespace sectio::measure {

namespace {

constexpr std::int64_t parts_of_hertz = 1'000'000'000, parts_of_cent = 1'000'000;

} // namespace

Pitch pitch_of(double hz) {
    return Pitch::hertz({Integer(std::llround(hz * parts_of_hertz)), Integer(parts_of_hertz)});
}

Interval interval_of(double cents) {
    return Interval::cents({Integer(std::llround(cents * parts_of_cent)), Integer(parts_of_cent)});
}

Interval half_width_of(double cents) {
    return Interval::cents(
        {Integer(static_cast<std::int64_t>(std::ceil(cents * parts_of_cent))), Integer(parts_of_cent)});
}

Rational half_width_hz(double hz, double cents) {
    const double width = hz * cents * std::numbers::ln2 / 1200;
    return {Integer(static_cast<std::int64_t>(std::ceil(width * parts_of_hertz))), Integer(parts_of_hertz)};
}

} // namespace sectio::measure
