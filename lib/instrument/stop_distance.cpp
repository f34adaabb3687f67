#include <sectio/base/argument.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/instrument/messages.hpp>
#include <sectio/instrument/stop_distance.hpp>

#include <cmath>

namespace sectio {

namespace {

/// 1 / frequency ratio, if that is a fraction of moderate terms.
std::optional<Rational> exact_share(const Interval& interval) {
    const auto ratio = interval.ratio();
    return ratio ? std::optional(Rational(ratio->denominator(), ratio->numerator())) : std::nullopt;
}

Enclosure share(const Interval& interval, long bits) {
    if (const auto exact = exact_share(interval))
        return {*exact, bits};
    return exp2((-interval).octaves(bits));
}

} // namespace

StopDistance StopDistance::between(const Length& length, Interval near, Interval far) {
    return {length, std::move(near), std::move(far)};
}

StopDistance StopDistance::to_bridge(const Length& length, const Interval& interval) {
    return {length, interval, std::nullopt};
}

std::optional<Length> StopDistance::exact() const {
    if (far_ && near_ == *far_)
        return Length();
    const auto near = exact_share(near_);
    const auto far = far_ ? exact_share(*far_) : Rational(0);
    if (!near || !far)
        return std::nullopt;
    return length_ * (*near - *far);
}

Enclosure StopDistance::enclosure(long bits) const {
    Enclosure part = share(near_, bits);
    if (far_)
        part = part - share(*far_, bits);
    return part * Enclosure(length_.millimetres(), bits);
}

Real StopDistance::millimetres() const {
    if (const auto value = exact())
        return value->millimetres();
    // Irrational, so never an exact half: rational powers of primes that differ by more than a
    // rational factor are linearly independent over the rationals (A. S. Besicovitch, "On the
    // linear independence of fractional powers of integers", J. London Math. Soc. 15 (1940)), and
    // two that differ by a rational factor other than 1 leave a rational multiple of one of them.
    return Real::enclosed([distance = *this](long bits) { return distance.enclosure(bits); });
}

double StopDistance::estimate() const {
    return enclosure(96).estimate();
}

Interval interval_at(const Length& length, const Length& from_nut) {
    check_argument(from_nut < length, "a stopped place", "nearer to the nut than the bridge is");
    const Rational ratio = length / (length - from_nut);
    return Interval::from_ratio(ratio.numerator(), ratio.denominator());
}

double in_mm(const Length& length) {
    return boost::rational_cast<double>(length.millimetres());
}

void check_compensation(const Length& compensation, const Length& length) {
    const Rational most = length.millimetres() / Integer(limits::compensation_part);
    if (abs(compensation.millimetres()) > most)
        throw error(message::compensation_too_far, compensation.text(), {});
}

} // namespace sectio
