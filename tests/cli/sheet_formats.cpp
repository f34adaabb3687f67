// The figures of a sheet in every format against each other, and the ruler's marks against the
// exact places that its JSON gives.

#include "support/json.hpp"
#include "support/paths.hpp"
#include "support/process.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <regex>
#include <sstream>

using nlohmann::json;
using support::run;
using support::run_sectio;

namespace {

const std::vector<std::string> sheet{
    "sheet", "9/8,5/4,4/3,3/2,5/3,15/8", "--against", "12,53", "--digits", "3"};

std::vector<std::string> with(std::vector<std::string> arguments,
                              const std::vector<std::string>& further) {
    arguments.insert(arguments.end(), further.begin(), further.end());
    return arguments;
}

/// What `sheet` writes into a file of this ending.
std::string written(const std::string& ending) {
    const support::TempDir folder;
    const auto file = folder.path() / ("sheet" + ending);
    REQUIRE(run_sectio(with(sheet, {"--out", file.string()})).exit_code == 0);
    if (ending != ".pdf")
        return support::read_file(file);
    const auto text = run({"pdftotext", "-layout", file.string(), "-"});
    REQUIRE(text.exit_code == 0);
    return text.out;
}

json answer(const std::vector<std::string>& further = {}) {
    return support::json_of(run_sectio(with(with(sheet, further), {"--json"})).out);
}

/// As people read a number: with the true minus, and a plus above zero where it is a difference.
std::string shown(std::string number, bool difference) {
    const bool zero = number.find_first_not_of("-0.") == std::string::npos;
    if (number.front() == '-')
        return "−" + number.substr(1);
    return difference && !zero ? "+" + number : number;
}

/// The row of a degree by JSON, word by word.
std::string row_of(const json& degree, std::size_t number) {
    const json& fine = degree["against"][1];
    std::string row = fmt::format("{} {} {}", number, degree["written"].get<std::string>(),
                                  degree["cents"].get<std::string>());
    if (!degree["next_cents"].is_null())
        row += " " + degree["next_cents"].get<std::string>();
    return fmt::format("{} {} {} {} {}", row, degree["note"].get<std::string>(),
                       shown(degree["deviation_cents"], true), fine["step"].get<int>(),
                       shown(fine["error_cents"], true));
}

std::vector<std::string> rows_of(const json& sheet_answer) {
    std::vector<std::string> rows;
    for (const json& degree : sheet_answer["degrees"])
        rows.push_back(row_of(degree, rows.size() + 1));
    return rows;
}

/// The lines of a text with single blanks.
std::vector<std::string> plain_lines(const std::string& text) {
    std::vector<std::string> lines;
    for (const std::string& line : support::lines_of(text)) {
        std::istringstream words(line);
        std::string plain, word;
        while (words >> word)
            plain += (plain.empty() ? "" : " ") + word;
        lines.push_back(plain);
    }
    return lines;
}

void check_rows(const std::string& text) {
    const std::vector<std::string> lines = plain_lines(text), rows = rows_of(answer());
    REQUIRE(rows.size() == 7);
    for (const std::string& row : rows) {
        CAPTURE(row);
        CHECK(std::count(lines.begin(), lines.end(), row) == 1);
    }
}

/// The x of every upright stroke of a drawing, in points.
std::vector<double> upright_strokes(const std::string& svg) {
    static const std::regex stroke(
        R"re(fill[:=]"?none[^>]* d="M ([\d.]+) ([\d.]+) L ([\d.]+) ([\d.]+) "/>)re");
    std::vector<double> places;
    for (auto at = std::sregex_iterator(svg.begin(), svg.end(), stroke);
         at != std::sregex_iterator(); ++at)
        if ((*at)[1] == (*at)[3])
            places.push_back(std::stod((*at)[1]));
    return places;
}

} // namespace

TEST_CASE("A sheet has the same figures as text, on paper and in the browser as in JSON") {
    check_rows(run_sectio(sheet).out);
    check_rows(written(".txt"));
    check_rows(written(".pdf"));
    const std::string html = std::regex_replace(written(".html"), std::regex("</td>"), " ");
    check_rows(std::regex_replace(html, std::regex("<[^>]*>"), ""));
}

TEST_CASE("A sheet has the same figures in CSV as in JSON") {
    const std::vector<std::string> lines = support::lines_of(written(".csv"));
    const json degrees = answer()["degrees"];
    REQUIRE(lines.size() >= degrees.size() + 1);
    for (std::size_t i = 0; i < degrees.size(); ++i) {
        const json& d = degrees[i];
        const auto text = [](const json& value) { return value.get<std::string>(); };
        std::string expected = fmt::format("{},,,{},{},,{},{},{},{}", i + 1, text(d["written"]),
                                           text(d["cents"]), text(d["next_cents"]), text(d["hz"]),
                                           text(d["note"]), text(d["deviation_cents"]));
        for (const json& division : d["against"])
            expected += fmt::format(",{},{},{}", division["step"].get<int>(),
                                    text(division["step_cents"]), text(division["error_cents"]));
        expected += ",440.000,2/1,C4,A4 = 440 Hz,";
        std::string line = lines[i + 1];
        line.erase(line.find_last_not_of('\r') + 1);
        CHECK(line == expected);
    }
}

TEST_CASE("The marks of a ruler lie within a tenth of a millimetre of their places") {
    constexpr double tenth = 0.1 / 25.4 * 72;
    const support::TempDir folder;
    const auto file = folder.path() / "ruler.svg";
    REQUIRE(run_sectio(with(sheet, {"--pages", "ruler", "--out", file.string()})).exit_code == 0);
    const std::vector<double> strokes = upright_strokes(support::read_file(file));
    REQUIRE(strokes.size() >= 13 + 54);
    const auto [left, right] = std::minmax_element(strokes.begin(), strokes.end());
    const auto nearest = [&, from = *left, width = *right - *left](double part) {
        double best = width;
        for (const double x : strokes)
            best = std::min(best, std::abs(x - (from + part * width)));
        return best;
    };
    for (int k = 0; k <= 12; ++k)
        CHECK(nearest(k / 12.0) < tenth);
    for (int k = 0; k <= 53; ++k)
        CHECK(nearest(k / 53.0) < tenth);
    for (const json& degree : answer()["degrees"])
        CHECK(nearest(std::stod(degree["cents"].get<std::string>()) / 1200) < tenth);
    // Between the marks there is none that would fit by chance.
    CHECK(nearest(0.5 / 53) > tenth);
}
