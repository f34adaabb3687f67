// Plans of frets: which degrees lie on which string, and what sharing costs.

#include <sectio/base/limits.hpp>
#include <sectio/instrument/fret_plan.hpp>
#include <sectio/instrument/messages.hpp>
#include <sectio/scale/load.hpp>

#include <support/errors.hpp>
#include <support/intervals.hpp>

using namespace sectio;
using support::interval;

namespace {

Length mm(const Rational& number) {
    return Length::millimetres(number);
}

Scale scale_of(const char* degrees) {
    return parse_degrees(degrees, "test");
}

PlannedString on(const char* open, int length = 600) {
    return {open, interval(open), mm(length)};
}

std::string texts(const std::vector<PlannedFret>& frets) {
    std::string all;
    for (const PlannedFret& fret : frets)
        all += (all.empty() ? "" : " ") + to_expression(fret.interval);
    return all;
}

FretPlan shared(const char* degrees, std::vector<PlannedString> strings, const char* cost) {
    FretPlanOptions options;
    options.share = interval(cost);
    return plan_frets(scale_of(degrees), std::move(strings), options);
}

} // namespace

TEST_CASE("Lengths on a string are rounded correctly, exact halves to even") {
    CHECK(StopDistance::from_nut(mm(620), interval("3/2")).millimetres().decimal(3) == "206.667");
    CHECK(StopDistance::to_bridge(mm(620), interval("3/2")).millimetres().decimal(3) == "413.333");
    CHECK(StopDistance::from_nut(mm(1), interval("2/1")).millimetres().decimal(0) == "0");
    CHECK(StopDistance::from_nut(mm(3), interval("2/1")).millimetres().decimal(0) == "2");
    CHECK(StopDistance::from_nut(mm(3), interval("2/1")).exact() == mm(Rational(3, 2)));
    CHECK_FALSE(StopDistance::from_nut(mm(3), interval("1of12")).exact());
    // 620 (1 - 2^(-1/12)), by mpmath.
    CHECK(StopDistance::from_nut(mm(620), interval("1of12")).millimetres().decimal(20)
          == "34.79792613735003208201");
}

TEST_CASE("A distance between two places is that of the one less that of the other") {
    const Length length = mm(620);
    const auto between = StopDistance::between(length, interval("9/8"), interval("1of4"));
    CHECK(between.millimetres().decimal(30)
          == StopDistance::between(mm(620), interval("9/8"), interval("3of12"))
                 .millimetres()
                 .decimal(30));
    CHECK(StopDistance::between(length, interval("1of4"), interval("1of4")).millimetres().decimal(3)
          == "0.000");
    CHECK(StopDistance::between(length, interval("9/8"), interval("5/4")).exact()
          == mm(Rational(620, 9) * 8 - 496));
    CHECK(between.estimate() == Approx(29.75533365380809).epsilon(1e-8));
}

TEST_CASE("A place gives its interval exactly") {
    CHECK(interval_at(mm(612), mm(68)) == interval("9/8"));
    CHECK(interval_at(mm(612), Length()) == Interval());
}

TEST_CASE("One string gets a fret for each degree up to the period") {
    const FretPlan plan = plan_frets(scale_of("9/8, 5/4, 3/2"), {on("1/1")});
    REQUIRE(plan.boards.size() == 1);
    const auto& frets = plan.boards.front().frets;
    CHECK(texts(frets) == "9/8 5/4 3/2 2/1");
    CHECK(frets.front().stops.front().degree == 1);
    CHECK(frets.back().stops.front().degree == 4);
    CHECK(frets.back().stops.front().index == 0);
}

TEST_CASE("The reach is included, and may go on over periods") {
    FretPlanOptions options;
    options.up_to = interval("3/1");
    const FretPlan plan = plan_frets(scale_of("9/8, 3/2"), {on("1/1")}, options);
    CHECK(texts(plan.boards.front().frets) == "9/8 3/2 2/1 9/4 3/1");
    CHECK(plan.boards.front().frets.back().stops.front().degree == 5);
}

TEST_CASE("A number of frets goes as far up as it takes, on every string from its own nut") {
    FretPlanOptions options;
    options.frets = 7;
    const FretPlan plan = plan_frets(scale_of("9/8, 3/2"), {on("1/1")}, options);
    CHECK(texts(plan.boards.front().frets) == "9/8 3/2 2/1 9/4 3/1 4/1 9/2");
    const FretPlan two = plan_frets(scale_of("9/8, 3/2"), {on("1/1"), on("3/2")}, options);
    CHECK(two.boards.front().frets.size() == 7);
    CHECK(texts(two.boards.front().frets) == "9/8 4/3 3/2 2/1 9/4 8/3 3/1");
    options.up_to = interval("2/1");
    CHECK(plan_frets(scale_of("9/8, 3/2"), {on("1/1")}, options).boards.front().frets.size() == 3);
    Scale ends = scale_of("9/8, 3/2");
    ends.period.reset();
    options.up_to.reset();
    const FretPlan few = plan_frets(ends, {on("1/1")}, options);
    CHECK(few.boards.front().frets.size() == 2);
    CHECK(few.scale.remarks
          == std::vector<std::string>{"2 of the 7 frets that were asked for lie within reach."});
    CHECK(two.scale.remarks.empty());
}

TEST_CASE("A string below the tonic has the degrees above its own open pitch") {
    const FretPlan plan = plan_frets(scale_of("9/8, 3/2"), {on("-3/2")});
    const auto& frets = plan.boards.front().frets;
    CHECK(texts(frets) == "9/8 3/2 27/16");
    // -3/2 is a fourth above the octave below: what follows is 3/4, the tonic, 9/8 above it.
    CHECK(frets[0].stops.front().degree == -1);
    CHECK(frets[1].stops.front().degree == 0);
    CHECK(frets[2].stops.front().degree == 1);
}

TEST_CASE("A set that does not repeat is fretted as it stands") {
    Scale scale = scale_of("9/8, 3/2");
    scale.period.reset();
    CHECK(texts(plan_frets(scale, {on("1/1")}).boards.front().frets) == "9/8 3/2");
}

TEST_CASE("Equal intervals share a straight fret at no cost") {
    const FretPlan plan = shared("9/8, 4/3, 3/2, 27/16", {on("1/1"), on("3/2")}, "1/1");
    const auto& frets = plan.boards.front().frets;
    CHECK(texts(frets) == "9/8 4/3 3/2 27/16 16/9 2/1");
    CHECK(frets[0].stops.size() == 2);
    CHECK(frets[3].stops.size() == 1);
    for (const Interval& error : plan.errors(1))
        CHECK(error.is_unison());
}

TEST_CASE("A cost lets near intervals share a fret midway, and no more than the cost") {
    // On the string of 3/2 the degrees 5/3 and 5/4 of the next octave lie at 10/9 and 5/3.
    const FretPlan exact = shared("9/8, 5/4, 4/3, 3/2, 5/3", {on("1/1"), on("3/2")}, "1/1");
    const FretPlan plan = shared("9/8, 5/4, 4/3, 3/2, 5/3", {on("1/1"), on("3/2")}, "11c");
    CHECK(plan.boards.front().frets.size() < exact.boards.front().frets.size());
    const PlannedFret& first = plan.boards.front().frets.front();
    CHECK(first.interval == (interval("10/9") + interval("9/8")) * Rational(1, 2));
    REQUIRE(first.stops.size() == 2);
    CHECK(first.stops[0].error == -first.stops[1].error);
    for (const std::size_t string : {0U, 1U})
        for (const Interval& error : plan.errors(string))
            CHECK(absolute(error) <= interval("11c"));
}

TEST_CASE("A fret never takes two degrees of one string") {
    const FretPlan plan = shared("10/9, 9/8, 3/2", {on("1/1"), on("1/1")}, "50c");
    CHECK(texts(plan.boards.front().frets) == "10/9 9/8 3/2 2/1");
}

TEST_CASE("Strings of different lengths have boards of their own, unfretted ones have none") {
    std::vector<PlannedString> strings = {on("1/1", 600), on("1/1", 500), on("-2/1", 600)};
    strings.back().fretted = false;
    const FretPlan plan = plan_frets(scale_of("3/2"), strings);
    REQUIRE(plan.boards.size() == 2);
    CHECK(plan.boards[0].strings == std::vector<std::size_t>{0});
    CHECK(plan.boards[1].length == mm(500));
}

TEST_CASE("A measured degree leaves a half width to its fret") {
    Scale scale = scale_of("203c, 498c");
    scale.degrees[1].uncertainty = interval("3c");
    const FretPlan plan = plan_frets(scale, {on("1/1")});
    const auto& frets = plan.boards.front().frets;
    // 600 (2^(-200/1200) - 2^(-203/1200)), by mpmath.
    CHECK(half_width_of(frets[0], mm(600))->millimetres().decimal(6) == "0.925484");
    CHECK_FALSE(half_width_of(frets[1], mm(600)));
}

TEST_CASE("Plans that cannot be made are refused") {
    const auto refusal = [](const char* degrees, const char* up_to, const char* share) {
        return support::error_of([&] {
            FretPlanOptions options;
            options.up_to = interval(up_to);
            options.share = interval(share);
            plan_frets(scale_of(degrees), {on("1/1")}, options);
        });
    };
    CHECK(support::name_of(refusal("3/2", "5/4", "1/1")) == "no_frets");
    CHECK(support::name_of(refusal("3/2", "2/1", "-3c")) == "share_negative");
    CHECK(support::name_of(refusal("3/2", "2^10000", "1/1")) == "too_many_frets");
}
