// What is to be done to strings so that they sound in a scale.

#include <sectio/measure/tuning_plan.hpp>
#include <sectio/print/print.hpp>
#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/load.hpp>

#include <support/errors.hpp>
#include <support/intervals.hpp>

using namespace sectio;
using namespace sectio::measure;
using sectio::measure::PlannedString;
using support::interval;

namespace {

std::vector<PlannedString> plan(std::string_view readings, const char* scale = "3/2",
                                const char* tonic = "D4") {
    const auto notes =
        notes_of(parse_readings(readings, Pitch::concert_a(), {"readings"}), interval("1c"));
    return tuning_plan(
        notes, tuned(load_named_scale(scale, Catalogue::installed(), {"scale"}), {tonic, {}}));
}

std::string printed(const std::vector<PlannedString>& strings) {
    page::Page page;
    page.title = "Plan";
    page.blocks = tuning_plan_blocks(strings, Pitch::concert_a());
    return print_text(page, {});
}

} // namespace

TEST_CASE("A string goes to the nearest degree of the scale, in any octave") {
    const auto strings = plan("low = A2-10c, mid = D4+3c, high = A5+20c");
    REQUIRE(strings.size() == 3);
    CHECK(strings[0].number == 2);
    CHECK(strings[0].change == interval("3/2") - interval("700c") + interval("10c"));
    CHECK(strings[1].number == 1);
    CHECK(strings[1].change == interval("-3c"));
    CHECK(strings[2].change == interval("3/2") - interval("700c") - interval("20c"));
    CHECK(strings[0].is_raised());
    CHECK_FALSE(strings[1].is_raised());
    CHECK_FALSE(strings[1].in_tune());
    CHECK(plan("D4+0.4c ± 0.5c").front().in_tune());
}

TEST_CASE("A reading that names a note means its degree, however far off the string is") {
    const auto strings = plan("low = D3-60c, high = 137Hz", "16/15, 15/8");
    REQUIRE(strings.size() == 2);
    CHECK(strings[0].number == 3); // 137 Hz lies nearest to C#3
    CHECK(strings[1].number == 1);
    CHECK(strings[1].target == parse_pitch("D3", Pitch::concert_a()));
    CHECK(strings[1].change == interval("60c"));
    CHECK(plan("D3-60c, D3-58c").front().number == 1);
    CHECK(plan("D4-60c ± 1c", "15/8").front().number == 1);
    CHECK(plan("D4 70 cents flat", "15/8").front().number == 1);
}

TEST_CASE("Tension goes with the square of the frequency") {
    // M. Mersenne's law: an octave needs four times the tension, a fifth nine quarters of it.
    CHECK(tension_change_percent(interval("2/1")).decimal(3) == "300.000");
    CHECK(tension_change_percent(interval("3/2")).decimal(3) == "125.000");
    CHECK(tension_change_percent(interval("1/2")).decimal(3) == "-75.000");
    CHECK(tension_change_percent(Interval()).decimal(1) == "0.0");
    // 2^(1/6) - 1 by PARI/GP: 0.12246204830937298143353304967917951623
    CHECK(tension_change_percent(interval("100c")).decimal(20) == "12.24620483093729814335");
}

TEST_CASE("A string pulls as its mass, its length and its pitch want") {
    // T = 4 m L f^2 with the mass m, worked by hand: steel 0.36 mm, 0.65 m, 329.6276 Hz (a first
    // string of a guitar) is 0.79903 g/m and 146.72 N. By mpmath: 146.72302.
    PlainString steel{parse_length("650mm"), parse_length("0.36mm"), "steel"};
    const Pitch e4 = parse_pitch("E4", Pitch::concert_a());
    CHECK(tension_newtons(steel, e4) == Approx(146.72302).epsilon(1e-6));
    CHECK(tension_newtons(steel, e4 + interval("2/1"))
          == Approx(4 * tension_newtons(steel, e4)).epsilon(1e-12));
    PlainString gut = steel;
    gut.material = "gut";
    CHECK(tension_newtons(gut, e4) * 7850 == Approx(tension_newtons(steel, e4) * 1300));
    CHECK(support::name_of(support::error_of([&] {
              tension_newtons({steel.length, steel.gauge, "wood"}, e4);
          }))
          == "unknown_material");
    CHECK(support::name_of(support::error_of([&] {
              tension_newtons({steel.length, {}, "gut"}, e4);
          }))
          == "string_partly_known");
    CHECK(support::name_of(support::error_of([&] {
              tension_newtons({Length(), steel.gauge, "gut"}, e4);
          }))
          == "string_measure");
}

TEST_CASE("A table says of each string what it is, and the plan what it pulls") {
    const auto notes = notes_of(read_reading_table("label,note,length_mm,gauge_mm,material\n"
                                                   "low,D4,650,0.36mm,steel\nhigh,A4,,,\n",
                                                   "t.csv", Pitch::concert_a()),
                                interval("1c"));
    REQUIRE(notes.size() == 2);
    CHECK(notes[0].string.length == parse_length("650mm"));
    CHECK(notes[0].string.material == "steel");
    CHECK(notes[1].string.unknown());
    const auto scale =
        tuned(load_named_scale("3/2", Catalogue::installed(), {"scale"}), {"D4", {}});
    const std::string one = printed(tuning_plan(notes, scale));
    CHECK(one.find("Tension N") != std::string::npos);
    CHECK(one.find("Together") == std::string::npos);
    const std::vector<ReadNote> both{notes[0]};
    CHECK(printed(tuning_plan(both, scale)).find("pull 116 N now and 116 N then")
          != std::string::npos);
}

TEST_CASE("A plan warns of strings that are raised, and more of those that are raised much") {
    const char* eyes = "protect your eyes";
    const char* luthier = "luthier";
    CHECK(printed(plan("D4+30c")).find(eyes) == std::string::npos);
    CHECK(printed(plan("D4-30c")).find(eyes) != std::string::npos);
    CHECK(printed(plan("D4-30c")).find(luthier) == std::string::npos);
    CHECK(printed(plan("D4-100c")).find(luthier) != std::string::npos);
    CHECK(printed(plan("D4-30c")).find("up") != std::string::npos);
    CHECK(printed(plan("D4+30c")).find("down") != std::string::npos);
}
