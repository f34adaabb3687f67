#include <sectio/base/argument.hpp>
#include <sectio/interval/real.hpp>

#include <algorithm>

namespace sectio {

namespace {

/// The root of what is no exact square is irrational; of one that is, a fraction.
Integer scaled_root(const Rational& square, int digits) {
    // The whole number f below sqrt(s), s = square * 10^(2 digits), compared with (f + 1/2)^2.
    const Rational s = square * power_of_ten(2 * digits);
    Integer root = boost::multiprecision::sqrt(floor(s));
    const Rational half = Rational(2 * root + 1, 2), half_square = half * half;
    if (s > half_square || (s == half_square && root % 2 == 1))
        ++root;
    return root;
}

} // namespace

Real::Real(const Rational& value)
    : Real([value](int digits) { return round_half_even(value * power_of_ten(digits)); }) {}

Real Real::enclosed(RealFunction irrational) {
    check_function(irrational, "what encloses a real number");
    return Real([irrational = std::move(irrational)](int digits) {
        // log2(10) < 3.33 bits carry one digit.
        const long more = static_cast<long>(3.33 * digits);
        const Integer scale = power_of_ten(digits);
        return certified_round(
            [&](long bits) { return irrational(bits + more) * Enclosure(scale, bits + more); });
    });
}

Real Real::root_of(const Rational& square) {
    check_argument(square >= 0, "a square", "0 or above");
    return Real([square](int digits) { return scaled_root(square, digits); });
}

Real Real::scaled_by(std::function<Integer(int digits)> scaled) {
    check_function(scaled, "what scales a real number");
    return Real(std::move(scaled));
}

Integer Real::scaled(int digits) const {
    check_digits(digits);
    return scaled_(digits);
}

std::string Real::decimal(int digits) const {
    return decimal_text(scaled(digits), digits);
}

Rational Real::rounded(int digits) const {
    return {scaled(digits), power_of_ten(digits)};
}

double Real::estimate() const {
    constexpr int first_digits = 20, last_digits = 640; // the smallest double is about 10^-324
    constexpr std::size_t enough_bits = 64;
    for (int digits = first_digits;; digits *= 2) {
        const Integer whole = scaled(digits);
        if (bit_length(whole) <= enough_bits && digits < last_digits)
            continue;
        const Rational near(whole, power_of_ten(digits));
        return certified_double([&near](long bits) { return Enclosure(near, bits); });
    }
}

Real beats_per_second(const Pitch& a, const Pitch& b, const Integer& m, const Integer& n) {
    const Interval first = (a + Interval::from_ratio(m)).above_hertz();
    const Interval second = (b + Interval::from_ratio(n)).above_hertz();
    if (first == second)
        return Rational(0);
    const auto [low, high] = std::minmax({first, second});
    if (low.ratio() && high.ratio())
        return *high.ratio() - *low.ratio();
    // No exact half: different products of rational powers of primes, of which one at least is
    // irrational, have an irrational difference, since those that are no rational multiples of one
    // another are linearly independent over the rationals. Source: A. S. Besicovitch, On the linear
    // independence of fractional powers of integers, J. London Math. Soc. 15 (1940), 3-6.
    return Real::enclosed([low = low, high = high](long bits) {
        return exp2(high.octaves(bits)) - exp2(low.octaves(bits));
    });
}

Rational half_width_in_hertz(const Pitch& pitch, const Interval& half_width) {
    constexpr int places = 12;
    return frequency(pitch + half_width).rounded(places) - frequency(pitch).rounded(places)
           + Rational(1, power_of_ten(places));
}

} // namespace sectio
