// Laws over random intervals. RC_PARAMS="seed=… max_success=…" in the environment changes the run.

#include "random_intervals.hpp"

#include <sectio/division/division.hpp>

using sectio::Enclosure;
using sectio::Integer;
using sectio::Interval;
using sectio::Rational;
using support::holds;

namespace {

/// Bits that carry a thousand digits, and guard bits.
constexpr long thousand_digits = 3400;

/// The size by a plain sum of logarithms to a thousand digits: another way than the engine's, which
/// uses doubles and whole terms first.
Enclosure evaluated(const Interval& a) {
    Enclosure sum(thousand_digits);
    for (const sectio::Factor& f : a.prime_factors())
        sum =
            sum + log2(Enclosure(f.base, thousand_digits)) * Enclosure(f.exponent, thousand_digits);
    return sum;
}

} // namespace

TEST_CASE("Intervals are a commutative group") {
    holds("associative", [](const Interval& a, const Interval& b, const Interval& c) {
        RC_ASSERT((a + b) + c == a + (b + c));
    });
    holds("commutative", [](const Interval& a, const Interval& b) { RC_ASSERT(a + b == b + a); });
    holds("neutral and inverse", [](const Interval& a) {
        RC_ASSERT(a + Interval() == a);
        RC_ASSERT((a + -a).is_unison());
        RC_ASSERT(a - a == Interval());
        RC_ASSERT(-(-a) == a);
    });
    holds("difference undoes sum",
          [](const Interval& a, const Interval& b) { RC_ASSERT(a + b - b == a); });
}

TEST_CASE("Intervals are a vector space over the fractions") {
    holds("distributes over intervals",
          [](const Interval& a, const Interval& b, const Rational& r) {
              RC_ASSERT((a + b) * r == a * r + b * r);
          });
    holds("distributes over fractions",
          [](const Interval& a, const Rational& r, const Rational& s) {
              RC_ASSERT(a * Rational(r + s) == a * r + a * s);
              RC_ASSERT(a * r * s == a * Rational(r * s));
          });
    holds("a part taken as often is the whole", [](const Interval& a) {
        const int n = *rc::gen::inRange(1, 40);
        RC_ASSERT(Integer(n) * (a * Rational(1, n)) == a);
    });
    holds("exact quotient", [](const Interval& a, const Rational& r) {
        RC_PRE(!a.is_unison());
        RC_ASSERT(sectio::exact_quotient(a * r, a) == r);
    });
}

TEST_CASE("The order is total and goes with the sum") {
    holds("one of three", [](const Interval& a, const Interval& b) {
        RC_ASSERT((a < b) + (a == b) + (a > b) == 1);
        RC_ASSERT((a < b) == (b > a));
    });
    holds("transitive", [](const Interval& a, const Interval& b, const Interval& c) {
        if (a <= b && b <= c)
            RC_ASSERT(a <= c);
    });
    holds("kept by sums", [](const Interval& a, const Interval& b, const Interval& c) {
        RC_ASSERT((a < b) == (a + c < b + c));
        RC_ASSERT((a < b) == (-b < -a));
    });
    holds("agrees with a thousand digits", [](const Interval& a, const Interval& b) {
        const auto sign = (evaluated(a) - evaluated(b)).sign();
        // Random intervals that differ do so long before the thousandth digit.
        RC_ASSERT(sign.value_or(0) == (a < b ? -1 : a > b ? 1 : 0));
    });
    holds("agrees with a thousand digits for near neighbours", [](const Interval& a) {
        const int digits = *rc::gen::inRange(1, 60);
        const Interval near = a
                              + Interval::from_cents(
                                  Rational(*rc::gen::element(-1, 1), sectio::power_of_ten(digits)));
        RC_ASSERT((evaluated(a) - evaluated(near)).sign() == (a < near ? -1 : 1));
    });
}

TEST_CASE("What is printed reads back as the same") {
    holds("expression", [](const Interval& a) {
        RC_ASSERT(sectio::parse_interval(sectio::to_expression(a)) == a);
    });
    holds("one spelling for one interval", [](const Interval& a, const Interval& b) {
        RC_ASSERT(sectio::to_expression(a + b - b) == sectio::to_expression(a));
    });
    holds("stack of printed parts", [](const Interval& a, const Interval& b) {
        const std::string text =
            "(" + sectio::to_expression(a) + ") - (" + sectio::to_expression(b) + ")";
        RC_ASSERT(sectio::parse_interval(text) == a - b);
    });
}

TEST_CASE("Reduction stays in the period and differs by whole periods") {
    holds("octave", [](const Interval& a) {
        const Interval r = sectio::reduced(a);
        RC_ASSERT(r >= Interval() && r < Interval::octave());
        RC_ASSERT(r + sectio::whole_periods(a, Interval::octave()) * Interval::octave() == a);
        RC_ASSERT(sectio::reduced(r) == r);
    });
    holds("any period", [](const Interval& a, const Interval& period) {
        RC_PRE(period > Interval());
        const Interval r = sectio::reduced(a, period);
        RC_ASSERT(r >= Interval() && r < period);
        RC_ASSERT(r + sectio::whole_periods(a, period) * period == a);
    });
}

TEST_CASE("The nearest step is nearest, by 300 digits") {
    holds("any division", [](const Interval& target, const Interval& period) {
        RC_PRE(period > Interval());
        const Integer steps = *rc::gen::inRange(1, 400);
        const sectio::EqualDivision division(steps, period);
        const Integer nearest = division.nearest(target);
        constexpr long bits = 1100;
        const Enclosure place = target.octaves(bits) * Enclosure(steps, bits) / period.octaves(bits)
                                - Enclosure(nearest, bits);
        const Enclosure half(Rational(1, 2), bits);
        const auto below = (place + half).sign(), above = (half - place).sign();
        // More than half a step below is excluded, and half a step itself belongs to the lower one.
        if (const auto exact = sectio::exact_quotient(target, period)) {
            const Rational rest = *exact * steps - nearest;
            RC_ASSERT(rest > Rational(-1, 2) && rest <= Rational(1, 2));
        } else {
            RC_ASSERT(below == 1 && above == 1);
        }
        RC_ASSERT(division.at(nearest) - target == division.error(target));
    });
    holds("a step is its own nearest", [](const Interval& period) {
        RC_PRE(period > Interval());
        const sectio::EqualDivision division(*rc::gen::inRange(1, 400), period);
        const Integer step = *rc::gen::inRange(-1000, 1000);
        RC_ASSERT(division.nearest(division.at(step)) == step);
    });
}

TEST_CASE("Printed digits are right digits") {
    holds("fewer digits are the rounding of more", [](const Interval& a) {
        const int digits = *rc::gen::inRange(0, 30);
        const Rational fine = sectio::parse_decimal(a.cents(digits + 40));
        const auto exact = a.exact_cents();
        RC_ASSERT(a.cents(digits) == sectio::decimal(exact ? *exact : fine, digits));
    });
    holds("the key of a pitch and the rest", [](const Interval& a) {
        const sectio::Pitch pitch = sectio::Pitch::concert_a() + sectio::reduced(a);
        const auto keyed = sectio::nearest_key(pitch);
        RC_ASSERT(sectio::pitch_of_key(keyed.key) + keyed.deviation == pitch);
        RC_ASSERT(keyed.deviation <= Interval::from_steps(1, 24));
        RC_ASSERT(keyed.deviation > -Interval::from_steps(1, 24));
    });
}
