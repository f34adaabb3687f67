// The rule of ±: a figure goes down to the place of its half width's first significant digit, and a
// half width is rounded up. Looked at where a digit more or less is decided.

#include <sectio/interval/enclosure.hpp>
#include <sectio/page/cell.hpp>
#include <sectio/page/numbers.hpp>

#include <support/intervals.hpp>

using namespace sectio;
using support::interval;

namespace {

/// 10^-places cents, moved by `beyond` of 10^-30 cents.
Interval near_power(int places, int beyond) {
    return Interval::from_cents(Rational(1, power_of_ten(places))
                                + Rational(beyond, power_of_ten(30)));
}

} // namespace

TEST_CASE("At a power of ten the digit before it is the last, just below it the one after") {
    for (int places = 0; places < 9; ++places) {
        CAPTURE(places);
        CHECK(borne_digits(near_power(places, 0), 9) == places);
        CHECK(borne_digits(near_power(places, 1), 9) == places);
        CHECK(borne_digits(near_power(places, -1), 9) == places + 1);
        const Rational power(1, power_of_ten(places));
        CHECK(borne_digits(power, 9) == places);
        CHECK(borne_digits(Rational(power - Rational(1, power_of_ten(30))), 9) == places + 1);
        CHECK(borne_digits(power, places) == places);
        CHECK(borne_digits(power, places / 2) == places / 2);
    }
    // The two ratios of denominator 2^200 about one cent, less than 10^-56 cents from it.
    const Integer below = certified_floor([](long bits) {
        return exp2(Interval::from_steps(1, 1200).octaves(bits + 200))
               * Enclosure((Integer(1) << 200), bits + 200);
    });
    CHECK(borne_digits(Interval::from_ratio(below, (Integer(1) << 200)), 3) == 1);
    CHECK(borne_digits(Interval::from_ratio(below + 1, (Integer(1) << 200)), 3) == 0);
    CHECK(margin_cents(Interval::from_ratio(below, (Integer(1) << 200)), 0) == "1");
    CHECK(margin_cents(Interval::from_ratio(below + 1, (Integer(1) << 200)), 0) == "2");
    CHECK(borne_digits(interval("120c"), 3) == 0); // never coarser than whole cents
}

TEST_CASE("A half width is rounded up at whatever digit, and stays where nothing is left over") {
    CHECK(margin_cents(near_power(0, 0), 0) == "1");
    CHECK(margin_cents(near_power(0, 1), 0) == "2");
    CHECK(margin_cents(near_power(0, -1), 0) == "1");
    CHECK(margin_cents(near_power(2, 0), 2) == "0.01");
    CHECK(margin_cents(near_power(2, 1), 2) == "0.02");
    CHECK(margin_cents(interval("1731/1730"), 0) == "2"); // 1.00043
    CHECK(margin_cents(interval("1732/1731"), 0) == "1");
    CHECK(margin_cents(interval("1732/1731"), 3) == "1.000"); // 0.99985
    CHECK(margin_text(Rational(3, 10), 1) == "0.3");
    CHECK(margin_text(Rational(31, 100), 1) == "0.4");
    CHECK(margin_text(Rational(2), 0) == "2");
    CHECK(margin_text(Rational(2001, 1000), 0) == "3");
}

TEST_CASE("A measured figure and its half width end at the same digit") {
    const page::Digits digits{6, 6};
    const page::Number size = page::number(Rational(203456789, 1000000));
    for (const auto& [half_width, shown, margin] : {std::tuple{Rational(12), "203", "12"},
                                                    {Rational(1), "203", "1"},
                                                    {Rational(999, 1000), "203.5", "1.0"},
                                                    {Rational(1, 10), "203.5", "0.1"},
                                                    {Rational(11, 100), "203.5", "0.2"},
                                                    {Rational(99, 1000), "203.46", "0.10"},
                                                    {Rational(1, 1000), "203.457", "0.001"}}) {
        CAPTURE(shown);
        CHECK(page::Number(size).borne_by(page::HalfWidth(half_width)).for_people(digits) == shown);
        CHECK(page::Number(size).borne_by(page::HalfWidth(half_width)).for_programs(digits)
              == shown);
        CHECK(page::margin(half_width).for_people(digits) == margin);
    }
    CHECK(page::Number(size).borne_by(page::HalfWidth(Rational(1))).unborne(digits)
          == "203.456789");
}
