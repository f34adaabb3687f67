// The typed page in text, JSON and CSV: one value a cell, each format with its own form of it.

#include "support/intervals.hpp"
#include "support/process.hpp"

#include <sectio/page/numbers.hpp>
#include <sectio/print/format.hpp>

#include <catch2/catch.hpp>
#include <support/json.hpp>

using namespace sectio;
using namespace sectio::page;
using nlohmann::json;
using sectio::page::Cell;
using support::interval;

namespace {

struct Degree {
    std::string name;
    Interval size;
    std::optional<HalfWidth> half_width;
};

const std::vector<Degree> degrees{{"one", Interval(), {}},
                                  {"two, \"sharp\"", interval("203.46c"), interval("3c")},
                                  {"three", interval("5/4"), {}}};

Page sample() {
    Table table{"degrees", "Degrees", {}, {}};
    table.add(degrees, Column{"Name", ColumnKind::words}.keyed("name"),
              [](const Degree& d) { return d.name; });
    table.add(degrees, Column{"Cents"}.keyed("cents"),
              [](const Degree& d) { return cents(d.size).borne_by(d.half_width); });
    table.add(degrees,
              Column{"error", ColumnKind::figure, "53 steps"}.keyed("against[0].error_cents"),
              [](const Degree& d) { return cents(-d.size).with_sign(); });
    table.add(degrees, Column{"Remark", ColumnKind::words}.keyed("remark"),
              [](const Degree&) { return Cell(); });
    table.rows.push_back({{"end", cents(Interval::octave()), Cell(), Cell()}, "period"});
    Page page;
    page.title = "A sample";
    page.blocks = {
        Facts{"", "", {{"Tonic", Note{{{'F', 2}, 4}}, "tonic"}, {"", count(3), "hidden"}}}, table,
        Facts{"factors", "", {}},
        Paragraphs{"", "", {{Role::caution, "hot"}, {Role::source, "a book"}}}};
    return page;
}

} // namespace

TEST_CASE("A frequency has as many digits as the cents beside it need") {
    const page::Digits three{1, 3, false};
    const auto shown = [&](const char* pitch) {
        return page::hertz(parse_pitch(pitch)).for_programs(three);
    };
    // 440 · 2^((0 − 69)/12) = 8.175798915643707 (mpmath): a thousandth of a cent is 0.000005 Hz.
    CHECK(shown("C-1") == "8.175799");
    CHECK(shown("A4") == "440.000"); // exact: more digits are zeros
    CHECK(shown("C4") == "261.6256");
    CHECK(shown("C8") == "4186.009");
    CHECK(shown("79.3012345Hz") == "79.30123");
    CHECK(page::hertz(parse_pitch("C-1")).for_people({2, 3, false}) == "8.18");
    CHECK(page::hertz(parse_pitch("C-1")).for_people({2, 2, true}) == "8.1758");
    CHECK(page::hertz(parse_pitch("79.3012345Hz"), parse_interval("0.002c")).for_programs(three)
          == "79.30123");
    CHECK(page::hertz(parse_pitch("79.3012345Hz"), parse_interval("2c")).for_programs(three)
          == "79.30");
}

TEST_CASE("What stands under _exact is not rounded to the digits of the rest") {
    const page::Digits three{1, 3, false};
    const page::HalfWidth two = parse_interval("2c");
    CHECK(page::cents(parse_interval("3/2")).borne_by(two).unborne(three) == "701.955000865");
    CHECK(page::cents(parse_interval("250c")).borne_by(two).unborne(three) == "250.000");
    CHECK(page::cents(parse_interval("250.25c")).borne_by(two).unborne({1, 0, true}) == "250.25");
    CHECK(page::computed(1.5, 2).borne_by(two).unborne(three) == "1.50");
}

TEST_CASE("A page as text: aligned by points, without empty columns, words at its end") {
    CHECK(print_text(sample())
          == "A sample\n\n"
             "Tonic  F♯4\n\n"
             "Degrees\n"
             "                      53 steps\n"
             "Name           Cents     error\n"
             "one              0.0       0.0\n"
             "two, \"sharp\"   203      −203.5\n"
             "three          386.3    −386.3\n"
             "end           1200.0\n\n"
             "Caution: hot\nSource: a book\n");
}

TEST_CASE("A page as JSON: paths, null, and all digits of a measured figure beside it") {
    const std::string text = print_json(sample());
    const json page = support::json_of(text);
    CHECK(text.find("\"tonic\"") < text.find("\"degrees\""));
    CHECK(page.at("tonic") == "F#4");
    CHECK(page.at("hidden") == 3);
    REQUIRE(page.at("degrees").size() == 3);
    const json second = page.at("degrees").at(1);
    CHECK(second.at("cents") == "203");
    CHECK(second.at("cents_exact") == "203.460");
    CHECK(second.at("against").at(0).at("error_cents") == "-203.460");
    CHECK(second.at("remark").is_null());
    CHECK_FALSE(page.at("degrees").at(2).contains("cents_exact"));
    CHECK(page.at("period").at("cents") == "1200.000");
    CHECK(page.at("factors") == json::object());
}

TEST_CASE("A page as CSV: its table, plain numbers, fields quoted where they must be") {
    CHECK(print_csv(sample())
          == "name,cents,cents_exact,against_0_error_cents,remark\r\n"
             "one,0.000,0.000,0.000,\r\n"
             "\"two, \"\"sharp\"\"\",203,203.460,-203.460,\r\n"
             "three,386.314,386.313713865,-386.314,\r\n"
             "end,1200.000,1200.000,,\r\n");
}

TEST_CASE("Cells that a row lacks are empty in every format") {
    Page page;
    page.title = "Short rows";
    Table table{"rows", "Rows", {Column{"One"}.keyed("one"), Column{"Two"}.keyed("two")}, {}};
    table.rows = {Row{{Cell("a"), Cell("b")}}, Row{{Cell("c")}}, Row{}};
    page.blocks.emplace_back(table);
    const json rows = json::parse(print_json(page)).at("rows");
    CHECK(rows == json::parse(R"([{"one": "a", "two": "b"}, {"one": "c", "two": null},
                                  {"one": null, "two": null}])"));
    CHECK(print_csv(page) == "one,two\r\na,b\r\nc,\r\n,\r\n");
    CHECK(print_text(page).find("c") != std::string::npos);
    CHECK(print_html(page).find("<td") != std::string::npos);
    CHECK(print_pdf(page).substr(0, 4) == "%PDF");
}

TEST_CASE("A page without a table gives its facts as CSV") {
    Page page;
    page.blocks = {Facts{"a", "", {{"Yes", YesNo{true}, "yes"}, {"Note", "only people", ""}}}};
    CHECK(print_csv(page) == "key,value\r\na.yes,true\r\n");
}

TEST_CASE("Digits that are asked for count in every format") {
    PrintOptions options;
    options.digits = 5;
    CHECK(print_text(sample(), options).find("386.31371") != std::string::npos);
    CHECK(print_csv(sample(), options).find("386.31371") != std::string::npos);
    CHECK(support::json_of(print_json(sample(), options)).at("degrees").at(2).at("cents")
          == "386.31371");
}

TEST_CASE("A figure of several measurements is as coarse as the coarsest") {
    const Number figure = number(Rational(12345, 1000));
    const Digits digits{2, 3};
    CHECK(figure.for_people(digits) == "12.34"); // exactly half goes to the even digit
    CHECK(Number(figure).borne_by(HalfWidth(Rational(1, 10))).for_programs(digits) == "12.3");
    CHECK(Number(figure)
              .borne_by(HalfWidth(Rational(1, 10)))
              .borne_by(HalfWidth(Rational(2)))
              .for_programs(digits)
          == "12");
    CHECK(Number(figure)
              .borne_by(HalfWidth(Rational(2)))
              .borne_by(HalfWidth(Rational(1, 10)))
              .for_programs(digits)
          == "12");
}

TEST_CASE("Figures of every kind") {
    const Digits digits{1, 3};
    CHECK(hertz(support::pitch("440Hz")).in("Hz").for_people(digits) == "440.0 Hz");
    CHECK(root(Rational(2)).for_programs(digits) == "1.414");
    CHECK(computed(-0.00001).for_programs(digits) == "0.000");
    CHECK(computed(0.5).for_programs({1, 12}) == "0.500000000");
    CHECK(margin(Rational(31, 100)).for_people({3, 3})
          == "0.4"); // rounded up to the digit it bears
    CHECK(number(Rational(7, 2)).with_sign().for_people(digits) == "+3.5");
    CHECK(number(Rational(7, 2)).shown_with(0).for_people(digits) == "4");
}

TEST_CASE("Cells of other kinds, for people and for programs") {
    const Digits digits;
    const auto both = [&](const Cell& cell) {
        return std::pair(for_people(cell, digits), for_programs(cell, digits));
    };
    using Texts = std::pair<std::string, std::string>;
    CHECK(both(count(-7)) == Texts("−7", "-7"));
    CHECK(both(YesNo{false}) == Texts("no", "false"));
    CHECK(both(Expression{interval("3/2"), "fifth"}) == Texts("fifth", "fifth"));
    CHECK(both(List{{"a", count(2)}}) == Texts("a, 2", "a; 2"));
    CHECK(both(Map{{{"2", count(-1)}, {"3", count(1)}}}) == Texts("2 −1, 3 1", "2=-1; 3=1"));
    CHECK(both(Phrase{{Note{{{'B', -2}, 3}}, "low"}}) == Texts("B♭3 low", "Bb3 low"));
    CHECK(both(Cell()) == Texts("", ""));
}

TEST_CASE("Lines of text keep to the columns that there are") {
    Page page;
    page.title = std::string("a title of words that goes on and on and on and on");
    page.blocks = {Facts{"", "", {{"Fact", "one two three four five six seven eight", ""}}}};
    PrintOptions options;
    options.columns = 20;
    for (const std::string& line : support::lines_of(print_text(page, options)))
        CHECK(display_width(line) <= 20);
}

TEST_CASE("A format is known by its ending, in any case") {
    CHECK(format_of("x.CSV") == Format::csv);
    CHECK(format_of("dir.json/x.txt") == Format::text);
    CHECK_FALSE(format_of("x.doc").has_value());
    CHECK_FALSE(format_of("x").has_value());
}

TEST_CASE("A written note has its signs for people and stands as written for programs") {
    for (const auto& [written, shown] : {std::pair{"C#", "C♯"}, std::pair{"Bb", "B♭"},
                                         std::pair{"F♯", "F♯"}, std::pair{"D", "D"}}) {
        const Cell cell = WrittenNote{written};
        CHECK(for_people(cell, {}) == shown);
        CHECK(for_programs(cell, {}) == written);
        CHECK_FALSE(cell.empty());
    }
    const Cell none = WrittenNote{};
    CHECK(none.empty());
    CHECK(for_people(none, {}).empty());
}
