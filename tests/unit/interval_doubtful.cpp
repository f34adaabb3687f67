// Bounds of errors in their doubtful zone: where a bound that were too small by some bits would let
// noise decide an order or a last digit.

#include "support/intervals.hpp"

#include <sectio/interval/interval.hpp>

#include <random>

using namespace sectio;

namespace {

Integer power_of_two(unsigned exponent) {
    return Integer(1) << exponent;
}

/// floor(size * 2^bits) in octaves.
Integer floor_of_size(const Interval& a, unsigned bits) {
    return certified_floor([&](long precision) {
        return a.octaves(precision) * Enclosure(power_of_two(bits), precision);
    });
}

} // namespace

TEST_CASE("Order holds between an irrational size and its neighbours far below a double's reach") {
    std::mt19937_64 random(7);
    for (int i = 0; i < 300; ++i) {
        const Interval a = Interval::from_ratio(random() | 1, random() | 1)
                           + Integer(random() % 1000) * Interval::from_ratio(3, 2);
        const unsigned bits = 50 + i % 40;
        const Integer below = floor_of_size(a, bits);
        CAPTURE(i, bits);
        CHECK(Interval::from_steps(below, power_of_two(bits)) < a);
        CHECK(a < Interval::from_steps(below + 1, power_of_two(bits)));
    }
}

TEST_CASE("An estimate is within its bound, and the bound is no better than a double's") {
    std::mt19937_64 random(11);
    for (int i = 0; i < 300; ++i) {
        const Interval a = Interval::from_ratio(random() | 1, random() | 1)
                           * Rational(static_cast<long>(random() % 999 + 1),
                                      static_cast<long>(random() % 999 + 1));
        const Interval::Estimate estimate = a.estimate();
        const double exact = certified_double([&](long bits) { return a.octaves(bits); });
        CAPTURE(i, exact);
        CHECK(std::abs(estimate.value - exact) <= estimate.error_bound);
        CHECK(estimate.error_bound >= 0x1p-52 * std::abs(exact));
        CHECK(estimate.error_bound <= 0x1p-40 * (1 + std::abs(exact)) * 130);
    }
}

TEST_CASE("The last digit of a ratio's size is right however near to a half it lies") {
    // Ratios n / 2^p next to 2^((k + 1/2) / (1200 10^digits)): p sets how near. The first precision
    // reaches some 56 bits beyond the last digit, so the nearest ones need another.
    std::mt19937_64 random(13);
    for (const int digits : {0, 3, 9, 50, 70}) {
        const Integer scale = 1200 * power_of_ten(digits);
        for (unsigned beyond = 30; beyond < 100; ++beyond) {
            const Integer k = Integer(random()) % scale;
            const unsigned p = beyond + static_cast<unsigned>(bit_length(scale));
            const Interval half = Interval::octave() * Rational(2 * k + 1, 2 * scale);
            const Integer n = certified_floor([&](long bits) {
                return exp2(half.octaves(bits + p)) * Enclosure(power_of_two(p), bits + p);
            });
            CAPTURE(digits, beyond);
            CHECK(Interval::from_ratio(n, power_of_two(p)).cents(digits)
                  == decimal_text(k, digits));
            CHECK(Interval::from_ratio(n + 1, power_of_two(p)).cents(digits)
                  == decimal_text(k + 1, digits));
        }
    }
}
