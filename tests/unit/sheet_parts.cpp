// The pages that a sheet may have besides its table.

#include "support/errors.hpp"
#include "support/intervals.hpp"
#include "support/json.hpp"

#include <sectio/print/print.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/sheet/beats.hpp>
#include <sectio/sheet/messages.hpp>
#include <sectio/sheet/sheet.hpp>

#include <catch2/catch.hpp>

using namespace sectio;
using nlohmann::json;

namespace {

json sheet_json(const std::string& degrees, const std::string& pages,
                const std::string& tonic = "D4", const std::string& drone = "") {
    ComparisonOptions options;
    options.tonic = tonic;
    const Comparison c = compare(parse_degrees(degrees, "test"), options);
    SheetOptions sheet;
    sheet.pages = parse_sheet_pages(pages);
    if (!drone.empty())
        sheet.drone = support::pitch(drone);
    return support::json_of(print_json(sheet_page(c, sheet)));
}

} // namespace

TEST_CASE("The matrix has every degree to every other, upwards through the period") {
    const json page = sheet_json("5/4,3/2", "matrix");
    CHECK(page.at("matrix").at(0).at("to").at(1).at("cents") == "386.314");
    CHECK(page.at("matrix").at(1).at("to").at(2).at("cents") == "315.641"); // 6/5
    CHECK(page.at("matrix").at(2).at("to").at(0).at("cents") == "498.045"); // 4/3
    CHECK(page.at("matrix_ratios").at(1).at("to").at(2).at("ratio") == "6/5");
    CHECK(page.at("matrix_ratios").at(2).at("to").at(1).at("ratio") == "5/3");
}

TEST_CASE("A fifth of twelve steps beats as often as the piano tuner counts") {
    // A3 = 220 Hz and E4 of 12 equal steps: |2 * 329.6275569 - 3 * 220| = 0.7448862.
    const json page = sheet_json("7of12", "matrix", "A3");
    CHECK(page.at("drone").at(1).at("ratio") == "3/2");
    CHECK(page.at("drone").at(1).at("beats") == "0.745");
    CHECK(page.at("drone").at(0).at("beats") == "0.000");
}

TEST_CASE("Beats of a measured degree are off by what its half width leaves") {
    // ±1 and ±√7 cents are ±√(32/3) = 3.266 together; the second partial against the third of A4:
    // 2 · 659.2551 · (2^(3.266/1200) − 1) = 2.4897 (mpmath).
    const json page = sheet_json("440Hz±1c, 659.2551Hz±2.645751c", "matrix", "A4", "440Hz");
    const json fifth = page.at("drone").at(1);
    CHECK(fifth.at("ratio") == "3/2");
    CHECK(fifth.at("beats") == "1");
    CHECK(fifth.at("beats_uncertainty_exact").get<std::string>().starts_with("2.4897"));
    CHECK(page.at("drone").at(0).at("beats_uncertainty").is_null()); // the string with itself
    CHECK_FALSE(
        sheet_json("7of12", "matrix", "A3").at("drone").at(1).contains("beats_uncertainty"));
}

TEST_CASE("Simple ratios may be bounded by a prime") {
    // Rast's Hüseynî of 53 steps, 905.66 cents: 27/16 is 905.87, 22/13 910.79.
    const Interval sixth = support::interval("40of53");
    CHECK(simple_ratio(sixth) == support::interval("22/13"));
    CHECK(simple_ratio(sixth, 5) == support::interval("27/16"));
}

TEST_CASE("Beats of exact ratios are nothing, and rational ones are exact") {
    const Pitch a = support::pitch("220Hz");
    CHECK(beats(support::pitch("330Hz"), a, Rational(3, 2)).for_programs({}) == "0.000");
    CHECK(beats(support::pitch("330.5Hz"), a, Rational(3, 2)).for_programs({}) == "1.000");
    CHECK(beats(support::pitch("329.5Hz"), a, Rational(3, 2)).for_programs({}) == "1.000");
}

TEST_CASE("A drone of its own counts instead of the tonic") {
    const json page = sheet_json("3/2", "matrix", "A3", "110Hz");
    CHECK(page.at("drone").at(1).at("ratio") == "3/1");
    CHECK(page.at("drone").at(1).at("cents") == "1901.955");
}

TEST_CASE("The tuner card names keys from every tonic as tuners do") {
    const json page = sheet_json("5/4,3/2", "tuner");
    const json third = page.at("tuner").at(1);
    CHECK(third.at("deviation_cents") == "-13.686");
    CHECK(third.at("notes").at(0) == "E");  // from C
    CHECK(third.at("notes").at(1) == "F");  // from C sharp, not E sharp
    CHECK(third.at("notes").at(2) == "F♯"); // from D
}

TEST_CASE("The best divisions hold 53 for perfect fifths") {
    const json errors = sheet_json("3/2", "errors").at("errors");
    std::vector<int> divisions;
    for (const json& row : errors)
        divisions.push_back(row.at("division"));
    CHECK(std::find(divisions.begin(), divisions.end(), 53) != divisions.end());
    CHECK(std::find(divisions.begin(), divisions.end(), 12) != divisions.end());
}

TEST_CASE("A tonic alone is in every division, which the page of the best says") {
    CHECK_FALSE(sheet_json("1/1", "errors").contains("errors"));
    CHECK_FALSE(sheet_json("1/1", "all").contains("errors"));
}

TEST_CASE("The steps of a division say which degrees lie at them") {
    const json steps = sheet_json("9/8,5/4,3/2", "division").at("steps");
    REQUIRE(steps.size() == 54);
    CHECK(steps.at(9).at("degrees") == "2");
    CHECK(steps.at(17).at("error_cents") == "-1.408");
    CHECK(steps.at(1).at("degrees") == "");
}

TEST_CASE("JSON has the degrees whatever pages are shown, and an unknown page is refused by name") {
    for (const char* key : {"degrees", "period", "summary"})
        CHECK(sheet_json("3/2", "matrix").at(key) == sheet_json("3/2", "table").at(key));
    CHECK(sheet_json("3/2", "all").contains("degrees"));
    const auto error = support::error_of([] { parse_sheet_pages("table,matrx", {"--pages"}); });
    REQUIRE(error);
    CHECK(error->id() == message::unknown_page);
    CHECK(error->piece() == "matrx");
}

TEST_CASE("A list of pages has no empty item") {
    for (const char* list : {"", "table,", ",table", "table,,matrix"}) {
        INFO(list);
        const auto error = support::error_of([&] { parse_sheet_pages(list, {"--pages"}); });
        REQUIRE(error);
        CHECK(error->id() == message::unknown_page);
        CHECK(error->piece().empty());
    }
    CHECK(parse_sheet_pages("matrix,ruler") == std::vector<std::string>{"matrix", "ruler"});
}

TEST_CASE("Where all errors are nought no degree is called the worst") {
    ComparisonOptions options;
    options.tonic = "D4";
    const std::string text =
        print_text(sheet_page(compare(parse_degrees("9of53,22of53,31of53", "test"), options)));
    std::vector<std::string> ends;
    for (std::size_t at = text.find("Equal steps"); at != std::string::npos && ends.size() < 3;) {
        const std::size_t end = text.find('\n', at);
        const std::string line = text.substr(at, end - at);
        ends.push_back(line.substr(line.find_last_of(' ') + 1));
        at = end + 1;
    }
    CHECK(ends == std::vector<std::string>{"degree", "2", "0.0"}); // of the head, 12 and 53
}

TEST_CASE("Steps of a division have the names of theory, the simplest that stands for each") {
    const json steps = sheet_json("9/8,5/4,3/2", "division").at("steps");
    CHECK(steps.at(0).at("in_theory") == "");
    CHECK(steps.at(1).at("in_theory") == "Holdrian comma");
    CHECK(steps.at(4).at("in_theory") == "larger limma");
    CHECK(steps.at(9).at("in_theory") == "major whole tone");
    CHECK(steps.at(14).at("in_theory") == "just minor third");
    CHECK(steps.at(17).at("in_theory") == "just major third");
    CHECK(steps.at(31).at("in_theory") == "perfect fifth");
    CHECK(steps.at(53).at("in_theory") == "octave");
    CHECK(steps.at(24).at("in_theory") == ""); // nothing within a quarter of a step
}
