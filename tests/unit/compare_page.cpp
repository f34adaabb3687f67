// Scales on lines to scale, one below the other.

#include "support/intervals.hpp"
#include "support/json.hpp"

#include <sectio/page/degree_rows.hpp>
#include <sectio/print/print.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/sheet/compare_page.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace sectio;

namespace {

const page::Drawing& drawing_of(const page::Page& page) {
    const auto found = std::find_if(page.blocks.begin(), page.blocks.end(), [](const auto& block) {
        return std::holds_alternative<page::Drawing>(block);
    });
    REQUIRE(found != page.blocks.end());
    return std::get<page::Drawing>(*found);
}

/// Upright strokes that are no guides, in one row.
std::vector<double> marks(const page::Drawing& drawing, double from, double to) {
    std::vector<double> places;
    for (const auto& s : drawing.strokes)
        if (s.x1 == s.x2 && s.dash == 0 && s.y2 > from && s.y2 < to)
            places.push_back(s.x1);
    std::sort(places.begin(), places.end());
    return places;
}

} // namespace

TEST_CASE("Marks of degrees lie to scale, labels below them, guides from the first row") {
    const page::Drawing d =
        page::degree_rows({{"first", true, {{0}, {600}, {1300}}},
                           {"second", false, {{0, "1"}, {10, "2"}, {1100, "3"}}}},
                          -100, 1200);
    const auto first = marks(d, 0, 12), second = marks(d, 12, 30);
    REQUIRE(first.size() == 2); // 1300 lies beyond
    REQUIRE(second.size() == 3);
    const double unit = (first[1] - first[0]) / 600;
    CHECK(second[0] == Approx(first[0]));
    CHECK(second[1] == Approx(first[0] + 10 * unit));
    CHECK(second[2] == Approx(first[0] + 1100 * unit));
    CHECK(
        std::count_if(d.strokes.begin(), d.strokes.end(), [](const auto& s) { return s.dash > 0; })
        == 2);
    std::vector<std::string> labels;
    for (const auto& label : d.labels)
        if (label.anchor == page::Drawing::Anchor::middle) {
            labels.push_back(label.text);
            CHECK(std::count(second.begin(), second.end(), label.x) == 1);
        }
    CHECK(labels == std::vector<std::string>{"1", "3"}); // 2 has no room beside 1
    CHECK(d.labels.front().text == "first");
    CHECK(d.labels.front().bold);
    for (const auto& s : d.strokes) {
        CHECK(s.x1 >= 40);
        CHECK(s.x2 <= d.width);
        CHECK(std::max(s.y1, s.y2) <= d.height);
    }
}

TEST_CASE("A comparison draws its scales from one tonic, periods repeated over the first one's") {
    std::vector<Scale> scales;
    for (const char* degrees : {"5/4,3/2", "4/3"})
        scales.push_back(parse_degrees(degrees, "test"));
    scales[1].period = Interval::from_cents(600);
    scales[1].degrees.pop_back();
    const page::Page page = compare_page(scales);
    const page::Drawing& d = drawing_of(page);
    const auto first = marks(d, 0, 12), second = marks(d, 12, 30);
    REQUIRE(first.size() == 4);  // 1/1 5/4 3/2 2/1
    REQUIRE(second.size() == 3); // 0, 600, 1200
    CHECK((second[1] - second[0]) == Approx((first[3] - first[0]) / 2));
    CHECK((first[1] - first[0]) / (first[3] - first[0]) == Approx(std::log2(1.25)));
}

TEST_CASE("Only degrees of the first scale have keys, since the tonic is its own") {
    std::vector<Scale> scales;
    for (const char* degrees : {"3/2", "9/8,5/4,4/3", "9/8,6/5,4/3,3/2,5/3"})
        scales.push_back(parse_degrees(degrees, "test"));
    TuningOptions options;
    options.tonic = "D4";
    const auto json = support::json_of(page::print_json(compare_page(scales, options), {}));
    REQUIRE(json.at("pairs").size() == 6); // three pairs, from the tonic and where they fit
    for (const auto& pair : json["pairs"])
        for (const auto& degree : pair.at("degrees")) {
            const bool of_first = pair["degrees"].size() == 2;
            CHECK(degree.contains("note") == of_first);
            CHECK(degree.contains("deviation_cents") == of_first);
        }
    CHECK(json["pairs"][0]["degrees"][1].at("note") == "A4");
    CHECK(json["pairs"][0]["degrees"][1].at("deviation_cents") == "1.955");
}

TEST_CASE("A distance is shown only as finely as the widest half width of both scales bears") {
    const auto shown = [](const char* first, const char* second) {
        std::vector<Scale> scales;
        for (const char* degrees : {"200c,500c", "210c,515c", "100c,600c"})
            scales.push_back(parse_degrees(degrees, "test"));
        for (const auto& [index, width] : {std::pair{1, first}, std::pair{2, second}})
            if (*width != '\0')
                scales[1].degrees[static_cast<std::size_t>(index)].uncertainty =
                    support::interval(width);
        const std::string text = page::print_text(compare_page(scales), {});
        const std::string matrix = text.substr(text.find("RMS error in cents from"), 200);
        // The root of the mean of 0, 10² and 15² square cents is 10.4 cents.
        return std::string(matrix.find(" 10.4") != matrix.npos  ? "tenths"
                           : matrix.find(" 10 ") != matrix.npos ? "cents"
                                                                : matrix.c_str());
    };
    CHECK(shown("", "") == "tenths");
    CHECK(shown("0.01c", "") == "tenths");
    CHECK(shown("4c", "") == "cents");
    CHECK(shown("4c", "0.01c") == "cents");
    CHECK(shown("0.01c", "4c") == "cents");
}
