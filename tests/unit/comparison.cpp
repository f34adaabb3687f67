// A scale laid against divisions, checked by hand-computed cases and against published figures.

#include <sectio/scale/comparison.hpp>

#include <catch2/catch.hpp>

using namespace sectio;

namespace {

std::vector<std::string> notes(const Comparison& comparison) {
    std::vector<std::string> all;
    for (const ComparedDegree& degree : comparison.degrees)
        all.push_back(degree.note.text());
    return all;
}

Comparison on(const std::string& degrees, const std::string& tonic) {
    ComparisonOptions options;
    options.tonic = tonic;
    return compare(parse_degrees(degrees, "test"), options);
}

} // namespace

TEST_CASE("Degrees are laid against 12 and 53 from the tonic") {
    const Comparison c = on("9/8,5/4,4/3,3/2,5/3,15/8", "D4");
    REQUIRE(c.degrees.size() == 7);
    CHECK(c.degrees[2].against[0].step == 4);
    CHECK(c.degrees[2].against[0].error.cents(3) == "13.686");
    CHECK(c.degrees[2].against[1].step == 17);
    CHECK(c.degrees[2].against[1].error.cents(3) == "-1.408");
    CHECK(c.degrees[2].deviation.cents(3) == "-13.686");
    CHECK(c.degrees[6].next->cents(3) == "111.731");
    CHECK(c.closing->note.text() == "D5");
    CHECK(c.degrees[2].pitch.hertz(3) == "367.081"); // 440 / 2^(7/12) * 5/4, by mpmath 1.2.1
}

TEST_CASE("Maximum and RMS leave the tonic out") {
    const Comparison c = on("5/4,3/2", "C4");
    CHECK(c.summaries[0].max_error.cents(3) == "13.686");
    CHECK(c.summaries[0].worst == 1);
    // sqrt((13.6862861^2 + 1.9550009^2) / 2) = 9.77590, by mpmath 1.2.1
    CHECK(c.summaries[0].rms_cents().decimal(4) == "9.7759");
}

TEST_CASE("An RMS that is an exact fraction is rounded as such") {
    // Errors of 12 equal steps: 3 and 4 cents; the mean square is 25/2.
    CHECK(root_mean_square({Interval::from_cents(Rational(7)), Interval::from_cents(Rational(-1))})
              .decimal(3)
          == "5.000");
    CHECK(root_mean_square({}).decimal(2) == "0.00");
    CHECK(root_mean_square({Interval::from_cents(Rational(1, 2))}).decimal(0)
          == "0"); // a half goes to the even digit
    CHECK(root_mean_square({Interval::from_cents(Rational(3, 2))}).decimal(0) == "2");
}

TEST_CASE("A deviation counts from the tonic's real pitch") {
    const Comparison c = on("3/2", "D4+20c");
    CHECK(c.degrees[0].deviation.cents(1) == "20.0");
    CHECK(c.degrees[1].note.text() == "A4");
    CHECK(c.degrees[1].deviation.cents(3) == "21.955");
    ComparisonOptions options;
    options.tonic = "440Hz";
    options.reference = "A4=430Hz";
    CHECK(compare(parse_degrees("3/2", "test"), options).degrees[0].deviation.cents(2) == "39.80");
}

TEST_CASE("Seven degrees take seven letters") {
    CHECK(notes(on("5of53,17of53,22of53,31of53,39of53,44of53", "D4"))
          == std::vector<std::string>{"D4", "Eb4", "F#4", "G4", "A4", "B4", "C5"});
    CHECK(notes(on("9/8,5/4,4/3,3/2,5/3,15/8", "Eb4"))
          == std::vector<std::string>{"Eb4", "F4", "G4", "Ab4", "Bb4", "C5", "D5"});
    CHECK(notes(on("9/8,5/4,4/3,3/2,5/3,15/8", "F#4"))
          == std::vector<std::string>{"F#4", "G#4", "A#4", "B4", "C#5", "D#5", "E#5"});
    CHECK(notes(on("3of12,6of12", "C4")) == std::vector<std::string>{"C4", "Eb4", "F#4"});
}

TEST_CASE("A scale without period has an open end") {
    Scale scale;
    scale.name = "open";
    scale.degrees = {{Interval(), "1/1", "", "", {}},
                     {Interval::from_ratio(5, 2), "5/2", "", "", {}}};
    const Comparison c = compare(scale);
    CHECK(!c.closing);
    CHECK(!c.degrees.back().next);
}

TEST_CASE("A tie between two steps goes to the lower one") {
    CHECK(on("50c", "C4").degrees[1].against[0].step == 0);
    CHECK(on("50c", "C4").degrees[1].note.text() == "C4");
    CHECK(on("150c", "C4").degrees[1].against[0].step == 1);
}
