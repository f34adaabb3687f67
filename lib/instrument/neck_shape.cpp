#include <sectio/instrument/messages.hpp>
#include <sectio/instrument/neck_shape.hpp>
#include <sectio/instrument/stop_distance.hpp>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

Rational squared(const Length& length) {
    return length.millimetres() * length.millimetres();
}

/// What a string covers of the centre line, squared.
Rational reach_squared(const NeckShape& neck, const Length& length) {
    return squared(length) - squared(neck.flare());
}

double root(const Rational& square) {
    return Real::root_of(square).estimate();
}

NeckPoint between(const NeckPoint& a, const NeckPoint& b, double share) {
    return {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
}

} // namespace

/// With the flare d, the share u and the reaches a and b of the outer strings along the centre line
/// it is the root of (d (1-2u))^2 + ((1-u) a + u b)^2, in which only the product a b may be
/// irrational; then the length is too, and its square is.
Real NeckShape::length_at(const Rational& across) const {
    const Rational a = reach_squared(*this, first), b = reach_squared(*this, last);
    const Rational rest = 1 - across, twice = 2 * across * rest, slant = 1 - 2 * across;
    const Rational square =
        squared(flare()) * slant * slant + rest * rest * a + across * across * b;
    const Rational product = a * b;
    const Integer above = sqrt(product.numerator()), below = sqrt(product.denominator());
    if (above * above == product.numerator() && below * below == product.denominator())
        return Real::root_of(square + twice * Rational(above, below));
    if (across == Rational(0) || across == Rational(1))
        return Real::root_of(square);
    return Real::enclosed([square, twice, product](long bits) {
        return sqrt(Enclosure(square, bits)
                    + Enclosure(twice, bits) * sqrt(Enclosure(product, bits)));
    });
}

void check(const NeckShape& neck) {
    for (const auto& [length, option] : {std::pair(neck.first, "--length"),
                                         {neck.last, "--length"},
                                         {neck.nut_spread, "--nut-spread"},
                                         {neck.bridge_spread, "--bridge-spread"}})
        if (length <= Length())
            throw error(message::length_not_positive, length.text(), {option});
    if (std::max(neck.nut_spread, neck.bridge_spread)
        > Length::millimetres(Rational(widest_spread_mm)))
        throw error(message::spread_too_wide, "", {"--bridge-spread"}, widest_spread_mm);
    if (reach_squared(neck, std::min(neck.first, neck.last)) <= Rational(0))
        throw error(message::flare_too_wide, "", {"--length"});
}

DrawnNeck::DrawnNeck(const Length& length, double left, double right)
    : first_{{left, 0}, 0, in_mm(length)}, last_{{right, 0}, 0, in_mm(length)} {}

DrawnNeck::DrawnNeck(const NeckShape& neck, double middle) {
    const double flare = in_mm(neck.flare()), half = in_mm(neck.nut_spread) / 2;
    first_ = {{middle - half, 0}, -flare, root(reach_squared(neck, neck.first))};
    last_ = {{middle + half, 0}, flare, root(reach_squared(neck, neck.last))};
    const double square =
        StopDistance::from_nut(Length::millimetres(Rational(1)), neck.perpendicular_interval)
            .estimate();
    const double ahead = square * (first_.along - last_.along); // of the last string's nut
    first_.nut.y = std::max(0.0, -ahead);
    last_.nut.y = std::max(0.0, ahead);
}

NeckPoint DrawnNeck::at(double across, double along) const {
    const auto on = [along](const Side& side) {
        return NeckPoint{side.nut.x + along * side.out, side.nut.y + along * side.along};
    };
    return between(on(first_), on(last_), across);
}

double DrawnNeck::end(double along) const {
    return std::max(at(0, along).y, at(1, along).y);
}

} // namespace sectio
