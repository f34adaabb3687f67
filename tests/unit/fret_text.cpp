// Fret places as people write them down: lists and tables.

#include "support/errors.hpp"

#include <sectio/instrument/fret_text.hpp>
#include <sectio/instrument/messages.hpp>

#include <catch2/catch.hpp>

using namespace sectio;

namespace {

std::vector<std::string> places(const FretNotes& notes) {
    std::vector<std::string> texts;
    for (const FretReading& reading : notes.readings)
        texts.push_back(reading.from_nut.figure.text());
    return texts;
}

FretNotes table(const std::string& text) {
    return read_fret_table(text, "frets.csv");
}

using Texts = std::vector<std::string>;

} // namespace

TEST_CASE("A table of frets has places from the nut or distances between them") {
    const FretNotes from_nut = table("fret,nut\nfirst,68 mm\nsecond,153 mm\n");
    CHECK(places(from_nut) == Texts{"68 mm", "153 mm"});
    CHECK(from_nut.distances == FretDistances::from_nut);
    CHECK(from_nut.readings[1].name == "second");
    const FretNotes between = table("spacing\n68 mm\n85 mm\n");
    CHECK(places(between) == Texts{"68 mm", "85 mm"});
    CHECK(between.distances == FretDistances::between);
    // With both, the places count: they do not add up errors.
    const FretNotes both = table("spacing,nut\n68 mm,68 mm\n85 mm,153 mm\n");
    CHECK(places(both) == Texts{"68 mm", "153 mm"});
    CHECK(both.distances == FretDistances::from_nut);
    const FretNotes bare = table("68 mm\n153 mm : 459 mm\n");
    CHECK(places(bare) == Texts{"68 mm", "153 mm"});
    CHECK(bare.distances == FretDistances::from_nut);
    CHECK_FALSE(bare.readings[0].to_bridge);
    CHECK(bare.readings[1].to_bridge->figure.text() == "459 mm");
}

TEST_CASE("A heading may name the unit of bare numbers below it") {
    for (const char* heading : {"nut_mm", "nut (mm)", "Nut mm", "from_nut_mm", "from nut (mm)"}) {
        CAPTURE(heading);
        CHECK(places(table(std::string(heading) + "\n68\n1 in\n")) == Texts{"68 mm", "25.4 mm"});
    }
    CHECK(table("spacing_mm\n68\n").distances == FretDistances::between);
    const FretNotes wide = table("label;nut_mm;bridge_mm;uncertainty_mm\nA;68;544;0.5\nB;153;;\n");
    REQUIRE(wide.readings.size() == 2);
    CHECK(wide.readings[0].name == "A");
    CHECK(wide.readings[0].from_nut.half_width->text() == "0.5 mm");
    CHECK(wide.readings[0].to_bridge->figure.text() == "544 mm");
    CHECK(wide.readings[0].to_bridge->half_width->text() == "0.5 mm");
    CHECK_FALSE(wide.readings[1].from_nut.half_width);
    CHECK_FALSE(wide.readings[1].to_bridge);
    // Words that only begin like a heading are none.
    CHECK(support::name_of(support::error_of([] { table("nuts\n68 mm\n"); })) != "");
}

TEST_CASE("Rows may be short, but not of their place; a table needs one") {
    CHECK(places(table("nut,bridge\n68 mm\n")) == Texts{"68 mm"});
    const auto fault = [](const std::string& text) {
        return support::name_of(support::error_of([&] { table(text); }));
    };
    CHECK(fault("name,nut\nfirst\n") == "fret_row_short");
    CHECK(fault("name,nut\nfirst,\n") == "fret_row_short");
    CHECK(fault("") == "no_fret_readings");
    CHECK(fault("nut\n") == "no_fret_readings");
}

TEST_CASE("A list of frets says where each fault stands") {
    const auto list = [](const std::string& text) { return parse_fret_list(text, {"l", 1, 1}); };
    const auto readings = list("57.4mm, 112mm ± 0.5mm; 6 3/8 in\n47mm : 377.2mm,");
    REQUIRE(readings.size() == 4);
    CHECK(readings[0].from_nut.figure.text() == "57.4 mm");
    CHECK(readings[1].from_nut.half_width->text() == "0.5 mm");
    CHECK(readings[2].from_nut.figure == Length::inches(Rational(51, 8)));
    CHECK(readings[3].to_bridge->figure.text() == "377.2 mm");
    CHECK(support::name_of(support::error_of([&] { list(" , ;\n"); })) == "no_fret_readings");
    const auto place = [&](const std::string& text) {
        return support::error_of([&] { list(text); }).value().place().column;
    };
    CHECK(place("57.4mm,x") == 8);
    CHECK(place("½ x,1mm") == 1);
    CHECK(place("57.4mm,47mm:x") == 13);
}

TEST_CASE("A half width for all fills only what states none") {
    auto readings = parse_fret_list("68mm, 153mm ± 1mm, 204mm : 408mm", {});
    give_half_width(readings, Length::millimetres(Rational(1, 2)));
    CHECK(readings[0].from_nut.half_width->text() == "0.5 mm");
    CHECK(readings[1].from_nut.half_width->text() == "1 mm");
    CHECK(readings[2].to_bridge->half_width->text() == "0.5 mm");
}

TEST_CASE("Distances from fret to fret beside places are named as not read") {
    const FretNotes notes = read_fret_table("nut_mm,spacing_mm\n57.4,57.4\n112,50\n", "frets.csv");
    CHECK(notes.distances == FretDistances::from_nut);
    CHECK(notes.headed);
    CHECK_FALSE(read_fret_table("57.4mm\n112mm\n", "frets.csv").headed);
    CHECK(notes.readings[1].from_nut.figure.text() == "112 mm");
    REQUIRE(notes.remarks.size() == 1);
    CHECK(notes.remarks[0] == "Not read of the table: spacing_mm.");
}

TEST_CASE("A half width in a table is above zero, as one after ± is") {
    for (const char* width : {"-1", "0"}) {
        const auto refused = support::error_of([&] {
            read_fret_table(std::string("nut_mm,uncertainty_mm\n57.4,") + width, "frets.csv");
        });
        CHECK(support::name_of(refused) == "half_width_not_positive");
        CHECK(refused.value().place().text() == "frets.csv:2:6");
    }
}
