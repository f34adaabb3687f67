// Frets as rulers find them: intervals, half widths, the stretch of a pressed string.

#include <sectio/instrument/measured_frets.hpp>
#include <sectio/instrument/messages.hpp>
#include <sectio/scale/half_width.hpp>

#include <support/errors.hpp>
#include <support/intervals.hpp>

#include <cmath>
#include <random>

using namespace sectio;
using support::interval;

namespace {

std::vector<FretReading> places(std::initializer_list<const char*> texts) {
    std::vector<FretReading> readings;
    for (const char* text : texts)
        readings.push_back({"", parse_measured_length(text), std::nullopt, {text}});
    return readings;
}

MeasuredString string_of(const char* length) {
    MeasuredString string;
    string.length = parse_measured_length(length);
    return string;
}

std::string half_width(const MeasuredFret& fret) {
    return fret.uncertainty ? fret.uncertainty->cents(4) : "exact";
}

/// A plain steel string of 0.3 mm at 60 N, 2 mm above the fret of the octave.
Pressing steel() {
    return {0.3, 200, 60, parse_measured_length("2 mm")};
}

} // namespace

TEST_CASE("Exact places give exact ratios") {
    const auto answer = measure_frets(string_of("612 mm"), places({"68 mm", "153mm", "204 mm"}));
    REQUIRE(answer.frets.size() == 3);
    CHECK(answer.frets[0].interval == interval("9/8"));
    CHECK(answer.frets[1].interval == interval("4/3"));
    CHECK(answer.frets[2].interval == interval("3/2"));
    CHECK(half_width(answer.frets[0]) == "exact");
    CHECK_FALSE(answer.least_sum);
}

TEST_CASE("Inches with fractions are exact too") {
    const auto answer = measure_frets(string_of("24 in"), places({"2 2/3 in", "8-0/1\"", "12 in"}));
    CHECK(answer.frets[0].interval == interval("9/8"));
    CHECK(answer.frets[1].interval == interval("3/2"));
    CHECK(answer.frets[2].interval == interval("2/1"));
}

TEST_CASE("Distances between frets add up, and so do their half widths by squares") {
    const auto answer = measure_frets(
        string_of("612 mm"), places({"68 mm ± 0.3 mm", "85 mm ± 0.4 mm"}), FretDistances::between);
    CHECK(answer.frets[1].interval == interval("4/3"));
    CHECK(answer.frets[1].from_nut.figure.text() == "153 mm");
    CHECK(answer.frets[1].from_nut.half_width->text() == "0.5 mm");
}

TEST_CASE("Both sides of a fret need no length, and say how well they agree") {
    std::vector<FretReading> readings = places({"68 mm", "153 mm"});
    readings[0].to_bridge = parse_measured_length("544 mm");
    readings[1].to_bridge = parse_measured_length("459.5 mm");
    const auto answer = measure_frets({}, readings);
    CHECK(answer.frets[0].interval == interval("9/8"));
    CHECK(answer.frets[1].interval == interval("1225/919"));
    CHECK(answer.least_sum->text() == "612 mm");
    CHECK(answer.most_sum->text() == "612.5 mm");
}

TEST_CASE("A ruler's half width becomes cents, larger towards the bridge") {
    // 1200/ln 2 · 0.5/(612 - x), rounded up, by mpmath.
    const auto answer =
        measure_frets(string_of("612 mm"), places({"68 mm ± 0.5 mm", "306 mm ± 0.5 mm"}));
    CHECK(half_width(answer.frets[0]) == "1.5913");
    CHECK(half_width(answer.frets[1]) == "2.8289");
}

TEST_CASE("Two causes together leave twice the combined standard uncertainty") {
    // At the octave the fret leaves 2.82882, the length 1.41441: 2 √((a² + b²)/3) = 3.65198.
    const auto answer = measure_frets(string_of("612 mm ± 0.5 mm"), places({"306 mm ± 0.5 mm"}));
    CHECK(half_width(answer.frets[0]) == "3.6520");
    // Measured from both sides, the same figures are independent and leave less.
    std::vector<FretReading> readings = places({"306 mm ± 0.5 mm"});
    readings[0].to_bridge = parse_measured_length("306 mm ± 0.5 mm");
    CHECK(half_width(measure_frets({}, readings).frets[0]) == "2.3098");
}

TEST_CASE("A half width never exceeds what its causes can do together") {
    CHECK(combined_half_width({Rational(3)})->cents(4) == "3.0000");
    CHECK(combined_half_width({Rational(3), Rational(1, 10)})->cents(4) == "3.1000");
    CHECK(combined_half_width({Rational(1), Rational(1)})->cents(4) == "1.6330");
    CHECK_FALSE(combined_half_width({Rational(0), Rational(0)}));
    CHECK_FALSE(combined_half_width({}));
}

TEST_CASE("Stated half widths hold the truth 95 times in 100") {
    std::mt19937 random(1);
    std::uniform_real_distribution<double> width(0.1, 1), share(-1, 1);
    int held = 0;
    constexpr int trials = 20'000;
    for (int i = 0; i < trials; ++i) {
        std::vector<Rational> causes;
        double error = 0;
        for (int n = 1 + i % 4; n > 0; --n) {
            const long thousandths = std::lround(1000 * width(random));
            causes.emplace_back(thousandths, 1000);
            error += share(random) * static_cast<double>(thousandths) / 1000;
        }
        held += std::abs(error) <= combined_half_width(causes)->estimate().value * 1200;
    }
    CHECK(held >= 0.95 * trials);
    CHECK(held < 0.99 * trials);
}

TEST_CASE("A pressed string sounds sharp by its stretch") {
    // By hand: 0.3 mm of steel, EA = 14137.2 N; depth 2 mm at 306 of 612 mm lengthens it by
    // 2 (√(306² + 2²) - 306) = 0.013072 mm, tension + 0.30196 N of 60, 600 log2(1.0050326) = 4.345.
    CHECK(stretch_cents({612, 0.3, 200, 60}, 306, 2) == Approx(4.3453).epsilon(1e-4));
    CHECK(clearance(2, 612, 306) == 2);
    CHECK(clearance(2, 612, 153) == 1);
    MeasuredString string = string_of("612 mm");
    string.pressing = steel();
    const auto answer = measure_frets(string, places({"306 mm"}));
    CHECK(answer.frets[0].stretch->cents(3) == "4.345");
    CHECK(answer.frets[0].interval == interval("2/1") + *answer.frets[0].stretch);
    CHECK(half_width(answer.frets[0]) == "2.1727");
}

TEST_CASE("Compensation makes good for the stretch, and counts only beside it") {
    const double c = compensation_for({612, 0.3, 200, 60}, 306, 2);
    MeasuredString string = string_of("612 mm");
    string.compensation = Length::millimetres(parse_decimal("1.5"));
    CHECK(measure_frets(string, places({"306 mm"})).frets[0].interval == interval("2/1"));
    string.pressing = steel();
    string.compensation =
        Length::millimetres(Integer(std::lround(c * 1e6))) * Rational(1, 1'000'000);
    const Interval octave = measure_frets(string, places({"306 mm"})).frets[0].interval;
    CHECK(absolute(octave - interval("2/1")) < interval("0.1c"));
    CHECK(c == Approx(1.540).epsilon(0.01));
}

TEST_CASE("An uncertain action widens the half width by twice its own share") {
    MeasuredString string = string_of("612 mm");
    string.pressing = steel();
    string.pressing->action = parse_measured_length("2 mm ± 0.2 mm");
    // 4.345/2 and 2 · 4.345 · 0.1, as above.
    CHECK(half_width(measure_frets(string, places({"306 mm"})).frets[0]) == "2.7021");
}

TEST_CASE("A string's tension follows from its mass, length and pitch") {
    // µ (2 L f)²: 0.6 g/m, 612 mm, 293.66 Hz.
    CHECK(tension_of(0.6, 612, 293.66) == Approx(77.518).epsilon(1e-4));
}

TEST_CASE("Places that are none are refused") {
    const auto refusal = [](std::optional<MeasuredLength> length,
                            std::initializer_list<const char*> texts) {
        MeasuredString string;
        string.length = std::move(length);
        return support::name_of(support::error_of([&] { measure_frets(string, places(texts)); }));
    };
    const auto length = parse_measured_length("612 mm");
    CHECK(refusal(length, {}) == "no_fret_readings");
    CHECK(refusal(length, {"0 mm"}) == "fret_behind_nut");
    CHECK(refusal(length, {"612 mm"}) == "fret_beyond_bridge");
    CHECK(refusal(length, {"700 mm"}) == "fret_beyond_bridge");
    CHECK(refusal(std::nullopt, {"68 mm"}) == "length_missing");
}
