// Text, CSV and HTML read back.

#include "support/paths.hpp"
#include "support/process.hpp"

#include <sectio/page/numbers.hpp>
#include <sectio/print/print.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/sheet/sheet.hpp>

#include <catch2/catch.hpp>

#include <algorithm>

using namespace sectio;
using namespace sectio::page;

namespace {

constexpr const char* awkward_file = R"(name = 'One, "two" & <three>'
tonic = 'D4'
degrees = [{ interval = '9/8', name = 'say "a, b"', note = 'E♭' },
           { interval = '5/4', name = '=1+1' }, { interval = '4/3', name = 'مقام الراست' },
           { interval = '3/2', name = '音律 <b>&' }, { interval = '2^(4/5)', name = "line\nbreak" }])";

Page awkward_sheet() {
    SheetOptions options;
    options.date = "2026-03-21";
    return sheet_page(compare(read_scale_file(awkward_file, "test.toml")), options);
}

/// A reader of RFC 4180 by its grammar, written apart from the printer.
std::vector<std::vector<std::string>> read_csv(const std::string& text) {
    std::vector<std::vector<std::string>> records(1, {""});
    for (std::size_t i = 0; i < text.size(); ++i) {
        std::string& field = records.back().back();
        if (text[i] == '"' && field.empty()) {
            for (++i; i < text.size() && !(text[i] == '"' && text.substr(i, 2) != "\"\""); ++i)
                field += text[i], i += text[i] == '"';
        } else if (text[i] == ',') {
            records.back().emplace_back();
        } else if (text.substr(i, 2) == "\r\n") {
            records.push_back({""}), ++i;
        } else {
            field += text[i];
        }
    }
    records.pop_back();
    return records;
}

/// Lines of the first table: from the one that begins with "No." to the empty one.
std::vector<std::string> table_lines(const std::string& text) {
    std::vector<std::string> lines = support::lines_of(text), table;
    auto head = std::find_if(lines.begin(), lines.end(),
                             [](const auto& line) { return line.starts_with("No."); });
    for (; head != lines.end() && !head->empty(); ++head)
        table.push_back(*head);
    return table;
}

std::size_t column_of(const std::string& line, std::size_t byte) {
    return display_width(std::string_view(line).substr(0, byte));
}

} // namespace

TEST_CASE("The columns of the text stand under one another by display width") {
    const auto lines = table_lines(print_text(awkward_sheet()));
    REQUIRE(lines.size() == 8);
    const std::size_t cents_end = column_of(lines[0], lines[0].find("Cents") + 5);
    const std::vector<std::string> cents{"0.0",   "203.9", "386.3", "498.0",
                                         "702.0", "960.0", "1200.0"};
    for (std::size_t i = 0; i < cents.size(); ++i) {
        CAPTURE(lines[i + 1]);
        const std::size_t at = lines[i + 1].find(" " + cents[i] + " ");
        REQUIRE(at != std::string::npos);
        CHECK(column_of(lines[i + 1], at + 1 + cents[i].size()) == cents_end);
    }
}

TEST_CASE("Points of measured figures stand under one another") {
    const auto scale = read_scale_file(
        "name='m'\ndegrees=['9/8',{interval='386c',uncertainty='3c'}]", "test.toml");
    const auto lines = table_lines(print_text(sheet_page(compare(scale))));
    REQUIRE(lines.size() == 5);
    const std::size_t whole = column_of(lines[2], lines[2].find("203.9") + 3);
    CHECK(column_of(lines[3], lines[3].find(" 386 ") + 4) == whole);
}

TEST_CASE("A text with twelve divisions keeps to a hundred columns") {
    ComparisonOptions options;
    options.divisions.clear();
    for (int n = 12; n < 24; ++n)
        options.divisions.emplace_back(n);
    const std::string text =
        print_text(sheet_page(compare(parse_degrees("9/8,5/4,3/2", "test"), options)));
    for (const std::string& line : support::lines_of(text))
        CHECK(display_width(line) <= 100);
    CHECK(text.find("23 steps") != std::string::npos);
}

TEST_CASE("CSV reads back by the grammar of RFC 4180") {
    const std::string csv = print_csv(awkward_sheet());
    CHECK(csv.find("\r\n") != std::string::npos);
    CHECK(csv.find("−") == std::string::npos);
    CHECK(csv.find("♯") == std::string::npos);
    const auto records = read_csv(csv);
    REQUIRE(records.size() == 8);
    for (const auto& record : records)
        CHECK(record.size() == 21);
    CHECK(records[0][0] == "degree");
    CHECK(records[0][10] == "step_12");
    CHECK(records[0][15] == "error_53_cents");
    CHECK(records[2][1] == "say \"a, b\"");
    CHECK(records[2][2] == "E♭");    // the author's own note stays as it is
    CHECK(records[3][1] == "'=1+1"); // marked as text for spreadsheets
    CHECK(records[3][3] == "5/4");
    CHECK(records[3][4] == "386.314");
    CHECK(records[3][7] == "367.081");
    CHECK(records[3][8] == "F#4");
    CHECK(records[3][9] == "-13.686");
    CHECK(records[3][15] == "-1.408");
    CHECK(records[6][1] == "line break");
}

TEST_CASE("CSV keeps an interval whole that is too long for a page") {
    const std::string long_ratio = "3^200/2^316";
    const std::string term(400, '1');
    const auto scale = parse_degrees(term + "9/" + term + "8", "test");
    CHECK(read_csv(print_csv(sheet_page(compare(scale))))[2][3] == term + "9/" + term + "8");
    const auto power = parse_degrees(long_ratio, "test");
    CHECK(read_csv(print_csv(sheet_page(compare(power))))[2][3] == long_ratio);
}

TEST_CASE("HTML is well-formed and escapes what people write") {
    const std::string html = print_html(awkward_sheet());
    CHECK(html.find("<b>&") == std::string::npos);
    CHECK(html.find("音律 &lt;b&gt;&amp;") != std::string::npos);
    CHECK(html.find("<title>One, &quot;two&quot; &amp; &lt;three&gt;</title>")
          != std::string::npos);
    CHECK(html.find("http") == html.find("http://www.w3.org/1999/xhtml")); // nothing is fetched
    if (!support::has_program("xmllint"))
        SECTIO_SKIP("xmllint is not installed");
    const support::TempDir folder;
    support::write_file(folder / "sheet.html", html);
    support::write_file(folder / "sheet.svg", print_svg(awkward_sheet()));
    for (const char* name : {"sheet.html", "sheet.svg"}) {
        const auto outcome = support::run({"xmllint", "--noout", (folder / name).string()});
        CAPTURE(name, outcome.err);
        CHECK(outcome.exit_code == 0);
    }
}

TEST_CASE("Every format says where the figures come from and when they were made") {
    Scale scale = parse_degrees("3/2", "test");
    scale.source = "a well-known book";
    SheetOptions options;
    options.date = "2026-03-21";
    const Page sheet = sheet_page(compare(scale), options);
    for (const std::string& text : {print_text(sheet), print_html(sheet)}) {
        CHECK(text.find("a well-known book") != std::string::npos);
        CHECK(text.find("2026-03-21") != std::string::npos);
    }
}

TEST_CASE("A heading that a file names commands no terminal and keeps its line") {
    const Scale odd = [] {
        Scale scale = read_scale_file("name = 'x'\ndegrees = ['9/8', '5/4']", "x.toml");
        scale.name = "a\x1b[31m\nb\xE9\u202E";
        return scale;
    }();
    const Scale plain = read_scale_file(awkward_file, "test.toml");
    const Page page = sheet_page(compare(plain), {.systems = {odd}});
    const std::string text = print_text(page), csv = print_csv(page);
    CHECK(text.find(char{0x1b}) == std::string::npos);
    CHECK(text.find("\u202E") == std::string::npos);
    CHECK(text.find("a [31m b\uFFFD<U+202E>") != std::string::npos);
    CHECK(csv.find("error_a_[31m_b\uFFFD") != std::string::npos);
}
