// Pitches that a program has as doubles.

#include <sectio/identify/identify.hpp>
#include <sectio/scale/pitch_list.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>

#include <limits>

using namespace sectio;

TEST_CASE("Pitches are taken from doubles, rounded to a millionth") {
    const std::vector<double> cents{0, 203.9100017, 701.955}, widths{0, 1.5, 1e-9};
    const PitchList list = pitches_of_cents(cents, widths);
    REQUIRE(list.pitches.size() == 3);
    CHECK(list.pitches[1].above.figure.cents(7) == "203.9100020");
    CHECK(list.pitches[1].written == "203.910002c");
    CHECK(list.pitches[0].above.exact());
    CHECK(list.pitches[1].above.half_width->cents(3) == "1.500");
    CHECK(list.pitches[2].above.half_width->cents(6) == "0.000001");
    CHECK(to_scale(list).degrees.size() == 3);
    CHECK(pitches_of_cents(cents, 4).pitches[2].above.half_width == Interval::from_cents(4));
}

TEST_CASE("Pitches in hertz are counted from the first") {
    const std::vector<double> hertz{440, 660, 293.3333333};
    const PitchList list = pitches_of_hertz(hertz);
    CHECK(list.pitches[1].above.figure == Interval::from_ratio(3, 2));
    CHECK(list.pitches[2].written == "293.333333Hz");
    CHECK(to_melody(list).sounding_zero->hertz(1) == "440.0");
}

TEST_CASE("What is no pitch or half width is an error") {
    const auto name = [](auto call) { return support::name_of(support::error_of(call)); };
    const std::vector<double> none, one{1}, two{0, 700},
        no_number{0, std::numeric_limits<double>::quiet_NaN()}, below{-1, 440};
    CHECK(name([&] { pitches_of_cents(none); }) == "no_pitches");
    CHECK(name([&] { pitches_of_cents(two, one); }) == "half_widths_missing");
    CHECK(name([&] { pitches_of_cents(two, -1); }) == "uncertainty_negative");
    CHECK(name([&] { pitches_of_cents(two, no_number); }) == "uncertainty_negative");
    CHECK(name([&] { pitches_of_cents(no_number); }) != "");
    CHECK(name([&] { pitches_of_hertz(below); }) == "frequency_not_positive");
}

TEST_CASE("A scale of doubles is identified") {
    // The just diatonic scale of Zarlino, Le istitutioni harmoniche (1558): 9/8 5/4 4/3 3/2 5/3
    // 15/8.
    const std::vector<double> cents{0, 203.91, 386.314, 498.045, 701.955, 884.359, 1088.269};
    const auto answer = identify(to_melody(pitches_of_cents(cents, 2)));
    REQUIRE(!answer.candidates.empty());
    CHECK(answer.candidates[0].scale->entry.id == "zarlino");
}
