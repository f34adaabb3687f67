// Numbers as programs compute with them: doubles out and in, operators, hashes, formatted text.

#include <sectio/base/messages.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/interval/format.hpp>
#include <sectio/interval/messages.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>

#include <cmath>
#include <limits>
#include <sstream>
#include <unordered_set>

using sectio::Interval;
using sectio::parse_interval;
using sectio::Pitch;
using sectio::Rational;
using support::error_of;
using support::name_of;

TEST_CASE("Sizes as doubles are the nearest ones") {
    // mpmath 1.2.1 with 60 digits: float(1200*log(a/b, 2)).
    CHECK(parse_interval("3/2").cents() == 701.9550008653874);
    CHECK(parse_interval("81/80").cents() == 21.506289596714854);
    CHECK(parse_interval("531441/524288").cents() == 23.460010384649014);
    CHECK(Interval::from_ratio(4503599627370497, 4503599627370496).cents()
          == 3.844111804577901e-13);
    CHECK(parse_interval("7of12").decimal() == 1.4983070768766815);
    CHECK((Pitch::concert_a() - parse_interval("7of12")).hertz() == 293.6647679174076);
    CHECK(parse_interval("700.1c").cents() == 700.1);
    CHECK((-parse_interval("1/3 + 3/1 + 4/3")).decimal() == 0.75);
    CHECK(Interval().cents() == 0);
    CHECK(Interval::from_ratio(1, 3).decimal() == 1.0 / 3);
    CHECK(std::isinf(Interval::from_ratio(sectio::Integer(1) << 2000).decimal()));
}

TEST_CASE("Doubles come in with a stated rounding") {
    CHECK(Interval::from_cents(701.955, 3) == parse_interval("701.955c"));
    CHECK(Interval::from_cents(-0.25, 1) == parse_interval("-0.2c")); // half to the even digit
    CHECK(Interval::from_cents(0.75, 1) == parse_interval("0.8c"));
    CHECK(Interval::from_cents(0x1p60, 0).exact_cents() == Rational(sectio::Integer(1) << 60));
    CHECK(Interval::from_cents(std::numeric_limits<double>::denorm_min(), 3).is_unison());
    CHECK(Pitch::from_hertz(261.6256, 4) == sectio::parse_pitch("261.6256Hz"));
    const double nan = std::nan("");
    CHECK(name_of(error_of([&] { Interval::from_cents(nan, 3); })) == "not_finite");
    CHECK(name_of(error_of([&] { Pitch::from_hertz(HUGE_VAL, 3); })) == "not_finite");
    CHECK(name_of(error_of([] { Pitch::from_hertz(-1.0, 3); })) == "frequency_not_positive");
    CHECK(name_of(error_of([] { Interval::from_cents(1.0, -1); })) == "digits_out_of_range");
}

TEST_CASE("Operators as people write them") {
    const Interval fifth = parse_interval("3/2");
    CHECK(Rational(1, 4) * fifth == fifth / 4);
    CHECK(2 * fifth == fifth + fifth);
    CHECK(fifth / Rational(-1, 2) == -(fifth + fifth));
    Interval grown = fifth;
    grown *= 3;
    grown /= 2;
    CHECK(grown == parse_interval("(3/2)^(3/2)"));
    CHECK(abs(-fifth) == fifth);
    CHECK(name_of(error_of([&] { fifth / 0; })) == "divided_by_zero");
}

TEST_CASE("Equal intervals have equal hashes, however their factors are kept") {
    // 53 x 59 is kept as one base until something splits it.
    const Interval whole = Interval::from_ratio(53 * 59);
    const Interval split = Interval::from_ratio(53) + Interval::from_ratio(59);
    REQUIRE(whole == split);
    CHECK(std::hash<Interval>()(whole) == std::hash<Interval>()(split));
    std::unordered_set<Interval> seen;
    for (int i = 1; i <= 100; ++i)
        for (int k = 1; k <= 100; ++k)
            seen.insert(Interval::from_ratio(i, k));
    CHECK(seen.size() == 6087); // fractions i/k in lowest terms, counted by Python's fractions
    CHECK(std::hash<Pitch>()(Pitch::concert_a()) == std::hash<Pitch>()(sectio::parse_pitch("A4")));
}

TEST_CASE("Intervals and pitches as text") {
    std::ostringstream out;
    out << parse_interval("3/2") << ' ' << Pitch::concert_a();
    CHECK(out.str() == "3/2 440.000 Hz");
    CHECK(fmt::format("[{:>6}]", parse_interval("3/2")) == "[   3/2]");
    CHECK(fmt::format("{}", Pitch::concert_a()) == "440.000 Hz");
    CHECK(sectio::try_parse_interval("5/4") == parse_interval("5/4"));
    CHECK_FALSE(sectio::try_parse_interval("5/"));
}
