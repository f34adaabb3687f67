// What frets are called.

#include <sectio/instrument/fret_page.hpp>
#include <sectio/instrument/fret_request.hpp>
#include <sectio/scale/load.hpp>

#include <support/errors.hpp>
#include <support/intervals.hpp>

using namespace sectio;

namespace {

/// One string with the scale's frets.
FretPlan plan_of(Scale scale) {
    return plan_frets(std::move(scale), {{"melody", Interval(), Length::millimetres(600), true}});
}

std::vector<std::string> names(const FretPlan& plan) {
    std::vector<std::string> all;
    for (const PlannedFret& fret : plan.boards.front().frets)
        all.push_back(name_of(plan, fret.stops.front()));
    return all;
}

} // namespace

TEST_CASE("A fret bears its interval up to nine letters, else its number") {
    const FretPlan plan = plan_of(parse_degrees("2187/2048, 65536/59049, 4000/3001", "test"));
    // "2187/2048" and "4000/3001" have nine letters, "65536/59049" eleven.
    CHECK(names(plan) == std::vector<std::string>{"2187/2048", "degree 2", "4000/3001", "2/1"});
    const FretPlan ten = plan_of(parse_degrees("10000/9999, 702.0001c, 702.001c", "test"));
    CHECK(names(ten) == std::vector<std::string>{"degree 1", "702.0001c", "702.001c", "2/1"});
    CHECK(short_name(ten, ten.boards.front().frets[2].stops.front()) == "3");
}

TEST_CASE("A degree's name goes before its note, and both before its interval") {
    Scale scale = parse_degrees("9/8, 5/4, 4/3", "test");
    for (Degree& degree : scale.degrees) {
        if (degree.interval == support::interval("9/8"))
            degree.name = "a long second", degree.note = "E";
        if (degree.interval == support::interval("5/4"))
            degree.note = "F";
    }
    const FretPlan plan = plan_of(std::move(scale));
    CHECK(names(plan) == std::vector<std::string>{"a long second", "F", "4/3", "2/1"});
    const auto& frets = plan.boards.front().frets;
    CHECK(short_name(plan, frets[0].stops.front()) == "1"); // more than seven letters
    CHECK(short_name(plan, frets[1].stops.front()) == "F");
}

TEST_CASE("Other strings than those of the instrument file have no length of their own") {
    const auto refusal = [](bool with_file) {
        FretRequest request{.opens = {parse_tonic("D4")}};
        if (with_file)
            request.instrument = read_instrument_file(
                "name = \"x\"\nstrings = [{ name = \"a\", open = \"A4\", length = \"424 mm\" }]\n",
                "x");
        return support::name_of(
            support::error_of([&] { fret_sheet(parse_degrees("9/8, 3/2", "test"), request); }));
    };
    CHECK(refusal(true) == "plan_of_other_strings");
    CHECK(refusal(false) == "plan_without_length");
}

TEST_CASE("Spreads draw the neck of an instrument file whose strings have one length") {
    const auto sheet = [](const char* second) {
        FretRequest request{.nut_spread = Length::millimetres(36),
                            .bridge_spread = Length::millimetres(52)};
        request.instrument = read_instrument_file(
            std::string("name = \"x\"\nstrings = [{ open = \"A4\", length = \"424 mm\" }, "
                        "{ open = \"D5\", length = \"")
                + second + "\" }]\n",
            "x");
        return fret_sheet(parse_degrees("9/8, 3/2", "test"), request);
    };
    CHECK(sheet("424 mm").neck.value().last == Length::millimetres(424));
    CHECK(support::name_of(support::error_of([&] { sheet("400 mm"); })) == "plan_without_length");
}
