// The sheet as a value: what stands on it, and how finely.

#include "support/errors.hpp"
#include "support/intervals.hpp"

#include <sectio/page/numbers.hpp>
#include <sectio/print/print.hpp>
#include <sectio/print/shown_table.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/sheet/sheet.hpp>

#include <catch2/catch.hpp>

#include <algorithm>

using namespace sectio;
using support::interval;

namespace {

/// A sheet as people see it: the texts of its columns by heading, of its facts by label.
struct Sheet {
    page::Page page;

    const page::Table& table() const { return std::get<page::Table>(page.blocks[2]); }
    const page::Ruler& ruler() const { return std::get<page::Ruler>(page.blocks[1]); }
    const page::Table& summary() const {
        return std::get<page::Table>(page.blocks[page.blocks.size() - 2]);
    }
    std::size_t rows() const { return table().rows.size(); }

    /// What stands in `row` under `head`, and under `group` over it, whether people see the column
    /// or not.
    static std::string cell(const page::Table& table, std::size_t row, const std::string& head,
                            const std::string& group = "") {
        for (std::size_t i = 0; i < table.columns.size(); ++i)
            if (table.columns[i].head == head && table.columns[i].group == group)
                return for_people(table.rows.at(row).cells[i], {});
        return "no column " + group + " " + head;
    }
    std::string at(std::size_t row, const std::string& head, const std::string& group = "") const {
        return cell(table(), row, head, group);
    }
    std::string fact(const std::string& label) const {
        for (const page::Fact& f : std::get<page::Facts>(page.blocks[0]).facts)
            if (f.label == label)
                return for_people(f.cell, {});
        return "no fact " + label;
    }
    bool shows(const std::string& group) const {
        const auto columns = shown(table(), {}).columns;
        return std::any_of(columns.begin(), columns.end(),
                           [&](const page::Column& c) { return c.group == group; });
    }
    std::size_t cautions() const {
        const auto& words = std::get<page::Paragraphs>(page.blocks.back()).paragraphs;
        return static_cast<std::size_t>(
            std::count_if(words.begin(), words.end(),
                          [](const page::Paragraph& p) { return p.role == page::Role::caution; }));
    }
};

const std::string key = "Key, deviation";

Sheet sheet_of(const std::string& degrees, const std::string& tonic,
               const std::string& against = "53") {
    ComparisonOptions options;
    options.tonic = tonic;
    options.divisions = {EqualDivision(12), parse_division(against)};
    return {sheet_page(compare(parse_degrees(degrees, "test"), options))};
}

Sheet sheet_of_file(const std::string& toml) {
    return {sheet_page(compare(read_scale_file(toml, "test.toml")))};
}

} // namespace

TEST_CASE("A row has the figures of its degree, signed with true signs") {
    const Sheet sheet = sheet_of("9/8,5/4,4/3,3/2,5/3,15/8", "D4");
    REQUIRE(sheet.rows() == 8);
    CHECK(sheet.at(2, "No.") == "3");
    CHECK(sheet.at(2, "Interval") == "5/4");
    CHECK(sheet.at(2, "Cents") == "386.3"); // 386.3137139, by mpmath 1.2.1
    CHECK(sheet.at(2, "", key) == "F♯4");
    CHECK(sheet.at(2, "cents", key) == "−13.7");
    CHECK(sheet.at(2, "Next") == "111.7"); // 16/15 is 111.7312853
    CHECK(sheet.at(2, "step", "12 steps") == "4");
    CHECK(sheet.at(2, "error", "12 steps") == "+13.7");
    CHECK(sheet.at(2, "step", "53 steps") == "17");
    CHECK(sheet.at(2, "error", "53 steps") == "−1.4"); // 17 * 1200/53 - 386.3137139 = -1.4080535
    CHECK(sheet.at(0, "cents", key) == "0.0");
    CHECK(sheet.ruler().marks[2].place == Approx(0.32192809)); // log2(5/4)
}

TEST_CASE("The period closes the table without a step beyond it") {
    const Sheet sheet = sheet_of("3/2", "C4");
    const std::size_t last = sheet.rows() - 1;
    CHECK(sheet.at(last, "Interval") == "2/1");
    CHECK(sheet.at(last, "Cents") == "1200.0");
    CHECK(sheet.at(last, "Next").empty());
    CHECK(sheet.ruler().marks.back().place == 1);
}

TEST_CASE("The facts name tonic and reference with their frequencies") {
    const Sheet sheet = sheet_of("3/2", "D4");
    CHECK(sheet.fact("Tonic") == "D4 ≈ 293.66 Hz"); // 440 / 2^(7/12) = 293.66477
    CHECK(sheet.fact("Reference pitch") == "A4 = 440 Hz");
    CHECK(sheet.fact("Period") == "2/1, 1200.0 cents");
    CHECK(sheet.fact("Compared with") == "12 and 53 equal steps");
    CHECK(sheet_of("3/2", "D4-14c").fact("Tonic") == "D4 −14.0 cents ≈ 291.30 Hz");
}

TEST_CASE("Twelve steps are the keys only from a tonic that is a key") {
    CHECK_FALSE(sheet_of("3/2", "D4").shows("12 steps"));
    CHECK(sheet_of("3/2", "D4+20c").shows("12 steps"));
    CHECK(sheet_of("3/2", "D4").shows("53 steps"));
}

TEST_CASE("The ruler names the keys as the degrees spell them") {
    const auto lines = sheet_of("9/8,6/5,4/3,3/2,8/5,9/5", "D4").ruler().lines;
    REQUIRE(lines.size() == 2);
    CHECK(lines[0].names.size() == 13);
    CHECK(lines[0].names[0] == "D");
    CHECK(lines[0].names[8] == "B♭");
    CHECK(lines[1].count == 53);
    CHECK(lines[1].step == Approx(1 / 53.0));
}

TEST_CASE("A division of another period has the steps that fit under the octave") {
    const Sheet sheet = sheet_of("3/2", "D4", "13(3/1)");
    CHECK(sheet.shows("13 of 3/1"));
    CHECK(sheet.ruler().lines[1].heading == "13 of 3/1");
    CHECK(print_csv(sheet.page).find("step_13(3/1)_cents") != std::string::npos);
    CHECK(sheet.ruler().lines[1].count == 8); // 8 * 1901.955/13 = 1170.4 cents, 9 are 1316.7
}

TEST_CASE("A finer division than the ruler can count has no marks") {
    const Sheet sheet = sheet_of("3/2", "D4", "10000000(1of1000)");
    CHECK(sheet.ruler().lines[1].count == 0);
    CHECK(Sheet::cell(sheet.summary(), 1, "largest", "Error in cents") == "0.0");
}

TEST_CASE("Without a period the ruler ends at the highest degree") {
    const Sheet sheet = sheet_of_file("name='Bells'\nperiod='none'\ndegrees=['600c','2400c']");
    CHECK(sheet.fact("Period") == "none");
    CHECK(sheet.rows() == 3);
    CHECK(sheet.ruler().marks[1].place == Approx(0.25));
    CHECK(sheet.ruler().marks[2].place == 1);
    CHECK(sheet.ruler().lines[1].count == 106);
}

TEST_CASE("A measured degree has no more digits than its uncertainty, which is rounded up") {
    const Sheet sheet = sheet_of_file(R"(name = 'Measured'
degrees = [{ interval = '203.46c', uncertainty = '3c' }, { interval = '386.36c', uncertainty = '0.41c' },
           '702c'])");
    CHECK(sheet.at(1, "Cents") == "203");
    CHECK(sheet.at(1, "±") == "3");
    CHECK(sheet.at(1, "Next") == "183"); // 182.9, no finer than the coarser of both
    CHECK(sheet.at(1, "cents", key) == "+3");
    CHECK(sheet.at(1, "error", "53 steps") == "0"); // 203.774 - 203.46
    CHECK(sheet.at(2, "Cents") == "386.4");
    CHECK(sheet.at(2, "±") == "0.5");
    CHECK(sheet.at(2, "Next") == "315.6");
    CHECK(sheet.at(3, "Cents") == "702.0");
    // 400 - 386.36, no finer than the coarsest
    CHECK(Sheet::cell(sheet.summary(), 0, "largest", "Error in cents") == "14");
    CHECK(sheet.cautions() == 1);
}

TEST_CASE("The caution about strings is for scales taken from an instrument, or on request") {
    const Comparison c = compare(parse_degrees("3/2", "test"));
    CHECK(Sheet{sheet_page(c)}.cautions() == 0);
    SheetOptions options;
    options.strings = true;
    CHECK(Sheet{sheet_page(c, options)}.cautions() == 1);
}

TEST_CASE("The digits that an uncertainty bears end at its first significant one") {
    // JCGM 100:2008, 7.2.6: figures are not given finer than their uncertainty.
    CHECK(borne_digits(interval("12c"), 3) == 0);
    CHECK(borne_digits(interval("1c"), 3) == 0);
    CHECK(borne_digits(interval("0.99c"), 3) == 1);
    CHECK(borne_digits(interval("0.1c"), 3) == 1);
    CHECK(borne_digits(interval("0.09c"), 3) == 2);
    CHECK(borne_digits(interval("0.09c"), 1) == 1);
    CHECK(borne_digits(std::nullopt, 4) == 4);
}

TEST_CASE("A margin is never rounded down, and an exact one not up") {
    CHECK(margin_cents(interval("3c"), 0) == "3");
    CHECK(margin_cents(interval("3.01c"), 0) == "4");
    CHECK(margin_cents(interval("0.40c"), 1) == "0.4");
    CHECK(margin_cents(interval("81/80"), 0) == "22"); // 21.506 cents
}

TEST_CASE("Frequencies are equal where they are exact, and else about equal") {
    CHECK(hertz_text(support::pitch("440Hz")) == "= 440 Hz");
    CHECK(hertz_text(support::pitch("440.25Hz")) == "= 440.25 Hz");
    CHECK(hertz_text(support::pitch("440.125Hz")) == "≈ 440.12 Hz"); // exactly half goes to even
    CHECK(hertz_text(support::pitch("C4")) == "≈ 261.63 Hz");
}

TEST_CASE("Zero has no sign, whatever it was before rounding") {
    CHECK(signed_cents(interval("-0.04c"), 1) == "0.0");
    CHECK(signed_cents(interval("0.04c"), 1) == "0.0");
    CHECK(signed_cents(interval("0.06c"), 1) == "+0.1");
    CHECK(cents_text(interval("-7c"), 0) == "−7");
}

TEST_CASE("Long numbers are cut in the middle, shorter ones are not") {
    const std::string whole = "19383245667680019896796723/19342813113834066795298816";
    CHECK(shortened(whole) == whole);
    CHECK(shortened(std::string(40, '7') + "/2") == "7777777777…7777777777/2");
    CHECK(display_width(shortened(std::string(300, 'x'))) < 100);
}

TEST_CASE("Names stand on one line of characters that XML allows") {
    CHECK(one_line("a\nb\tc") == "a b c");
    CHECK(one_line(std::string("a\x01"
                               "b\xFF"))
          == "a b\uFFFD");
    CHECK(one_line("Hüseynî مقام") == "Hüseynî مقام");
}

TEST_CASE("Letters take the columns of UAX #11") {
    CHECK(display_width("Hüseynî") == 7);
    CHECK(display_width("u\u0308") == 1); // u with a combining diaeresis
    CHECK(display_width("音律") == 4);
    CHECK(display_width("−13.7") == 5);
}

TEST_CASE("A sheet refuses digits beyond the limit") {
    page::PrintOptions options;
    options.digits = 10'001;
    CHECK_THROWS_AS(print_text(sheet_of("3/2", "D4").page, options), Error);
}

TEST_CASE("A set that reaches below its tonic is counted from the tonic") {
    const Sheet sheet = sheet_of_file("name = \"set\"\nperiod = \"none\"\ntonic = \"D4\"\n"
                                      "degrees = [\"-498c\", \"-200c\", \"9/8\", \"3/2\"]");
    CHECK(sheet.fact("Tonic") == "D4 ≈ 293.66 Hz");
    REQUIRE(sheet.rows() == 5);
    CHECK(sheet.at(0, "No.") == "−2");
    CHECK(sheet.at(1, "No.") == "−1");
    CHECK(sheet.at(2, "No.") == "1");
    CHECK(sheet.at(3, "No.") == "2");
    CHECK(sheet.at(2, "", key) == "D4");
    CHECK(sheet.ruler().marks.empty()); // it would have to begin below the tonic
}

TEST_CASE("Where every error is nought no degree is the worst") {
    const Sheet sheet = sheet_of("9of53,31of53", "C4");
    CHECK(Sheet::cell(sheet.summary(), 1, "largest", "Error in cents") == "0.0");
    CHECK(Sheet::cell(sheet.summary(), 1, "at degree").empty());
    CHECK_FALSE(Sheet::cell(sheet.summary(), 0, "at degree").empty());
}
