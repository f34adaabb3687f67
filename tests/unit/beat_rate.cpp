// Beats per second and semitones, which are neither pitches nor intervals.

#include <sectio/interval/beat_rate.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/interval/semitones.hpp>

#include <catch2/catch.hpp>

#include <concepts>

using namespace sectio;

static_assert(!std::convertible_to<BeatRate, Pitch> && !std::convertible_to<BeatRate, Interval>);
static_assert(!std::convertible_to<Semitones, Interval>);

TEST_CASE("Beats are the distance of two partials in hertz") {
    const Pitch a = parse_pitch("440Hz"), b = parse_pitch("442.5Hz");
    CHECK(BeatRate::between(a, b).decimal(2) == "2.50");
    CHECK(BeatRate::between(b, a).decimal(2) == "2.50");
    CHECK(BeatRate::between(a, a).none());
    CHECK(BeatRate::between(a, a).decimal(1) == "0.0");
    // A fifth of 3/2 does not beat; one of 7 equal semitones does: 3·440 − 2·440·2^(7/12).
    CHECK(BeatRate::between(a, a + Interval::from_ratio(3, 2), 3, 2).none());
    const BeatRate tempered = BeatRate::between(a, a + Interval::from_steps(7, 12), 3, 2);
    CHECK(tempered.decimal(6) == "1.489772"); // mpmath: 1.48977234852…
    CHECK(tempered.estimate() == Approx(1.489772).epsilon(1e-6));
    CHECK(BeatRate::between(a + Interval::from_steps(7, 12), a + Interval::from_steps(7, 12))
              .decimal(0)
          == "0");
}

TEST_CASE("Semitones become intervals only when asked") {
    CHECK(Semitones{Rational(7)}.interval() == Interval::from_steps(7, 12));
    CHECK((Semitones{Rational(1, 2)} + Semitones{Rational(1)}).interval()
          == Interval::from_steps(3, 24));
    CHECK((-Semitones{Rational(2)} - Semitones{Rational(1)}).count == Rational(-3));
}
