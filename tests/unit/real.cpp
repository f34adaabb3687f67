// Real numbers as they travel: rounded only where they are asked for.

#include "support/errors.hpp"

#include <sectio/interval/expression.hpp>
#include <sectio/interval/real.hpp>
#include <sectio/interval/semitones.hpp>

#include <catch2/catch.hpp>

#include <concepts>

using namespace sectio;

static_assert(!std::convertible_to<Real, Pitch> && !std::convertible_to<Real, Interval>);
static_assert(!std::convertible_to<Semitones, Interval>);

TEST_CASE("A fraction, a root and an irrational size are rounded alike, as text and as fractions") {
    const Real half(Rational(-1, 2));
    CHECK(half.decimal(0) == "0"); // to the even digit
    CHECK(half.rounded(1) == Rational(-1, 2));
    CHECK(Real::root_of(Rational(25, 4)).decimal(0) == "2");
    CHECK(Real::root_of(Rational(2)).decimal(20) == "1.41421356237309504880"); // PARI/GP: sqrt(2)
    const Real fifth = size_in_cents(parse_interval("3/2"));
    CHECK(fifth.decimal(30) == "701.955000865387417744486732737380"); // PARI/GP
    CHECK(fifth.rounded(3) == Rational(701'955, 1000));
    CHECK(fifth(3) == fifth.decimal(3));
    CHECK(size_in_cents(parse_interval("1of24")).rounded(0) == 50);
    CHECK(frequency(parse_pitch("441.5Hz")).rounded(1) == Rational(883, 2));
    CHECK(frequency_ratio(parse_interval("7of12")).decimal(9) == "1.498307077"); // 2^(7/12)
    CHECK(support::name_of(support::error_of([&] { (void)half.rounded(-1); }))
          == "digits_out_of_range");
    CHECK(support::name_of(
              support::error_of([] { (void)frequency_ratio(parse_interval("100000000of3")); }))
          == "ratio_out_of_reach");
}

TEST_CASE("The double of a real number is good to its last place, however small the number") {
    CHECK(Real(Rational(1, 3)).estimate() == 1.0 / 3);
    CHECK(Real(Rational(0)).estimate() == 0);
    const Real tiny(Rational(1, power_of_ten(300)));
    CHECK(tiny.estimate() == Approx(1e-300).epsilon(1e-15).margin(0));
    CHECK(size_in_cents(parse_interval("3/2")).estimate() == 701.9550008653874);
}

TEST_CASE("Beats are the distance of two partials in hertz") {
    const Pitch a = parse_pitch("440Hz"), b = parse_pitch("442.5Hz");
    CHECK(beats_per_second(a, b).decimal(2) == "2.50");
    CHECK(beats_per_second(b, a).decimal(2) == "2.50");
    CHECK(beats_per_second(a, a).decimal(1) == "0.0");
    // A fifth of 3/2 does not beat; one of 7 equal semitones does: 3·440 − 2·440·2^(7/12).
    CHECK(beats_per_second(a, a + Interval::from_ratio(3, 2), 3, 2).rounded(9) == 0);
    const Real tempered = beats_per_second(a, a + Interval::from_steps(7, 12), 3, 2);
    CHECK(tempered.decimal(6) == "1.489772"); // mpmath: 1.48977234852…
    CHECK(tempered.estimate() == Approx(1.489772).epsilon(1e-6));
    const Pitch third = a + Interval::from_steps(4, 12);
    CHECK(beats_per_second(third, third).decimal(0) == "0");
}

TEST_CASE("Semitones become intervals only when asked") {
    CHECK(Semitones{Rational(7)}.interval() == Interval::from_steps(7, 12));
    CHECK((Semitones{Rational(1, 2)} + Semitones{Rational(1)}).interval()
          == Interval::from_steps(3, 24));
    CHECK((-Semitones{Rational(2)} - Semitones{Rational(1)}).count == Rational(-3));
}
