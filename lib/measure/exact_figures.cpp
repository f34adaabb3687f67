#include <sectio/measure/exact_figures.hpp>

#include <cmath>
#include <cstdint>

namespace sectio::measure {

namespace {

constexpr std::int64_t parts_of_hertz = 1'000'000'000, parts_of_cent = 1'000'000;

Rational in_parts(double count, std::int64_t of_one) {
    return Rational(Integer(static_cast<std::int64_t>(count)), Integer(of_one));
}

} // namespace

Pitch pitch_of(double hz) {
    return Pitch::from_hertz(in_parts(std::round(hz * parts_of_hertz), parts_of_hertz));
}

Interval interval_of(double cents) {
    return Interval::from_cents(in_parts(std::round(cents * parts_of_cent), parts_of_cent));
}

Interval half_width_of(double cents) {
    return Interval::from_cents(in_parts(std::ceil(cents * parts_of_cent), parts_of_cent));
}

} // namespace sectio::measure
