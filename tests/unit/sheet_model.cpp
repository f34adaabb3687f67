// The sheet as a value: what stands on it, and how finely.

#include "support/errors.hpp"
#include "support/intervals.hpp"

#include <sectio/scale/load.hpp>
#include <sectio/page/figures.hpp>
#include <sectio/sheet/sheet.hpp>

#include <catch2/catch.hpp>

using namespace sectio;
using support::interval;

namespace {

Sheet sheet_of(const std::string& degrees, const std::string& tonic, int digits = paper_digits,
               const std::string& against = "53") {
    ComparisonOptions options;
    options.tonic = tonic;
    options.divisions = {EqualDivision(12), parse_division(against)};
    SheetOptions shown;
    shown.digits = digits;
    return make_sheet(compare(parse_degrees(degrees, "test"), options), shown);
}

Sheet sheet_of_file(const std::string& toml) {
    return make_sheet(compare(read_scale_file(toml, "test.toml")));
}

} // namespace

TEST_CASE("A row has the figures of its degree, signed with true signs") {
    const Sheet sheet = sheet_of("9/8,5/4,4/3,3/2,5/3,15/8", "D4");
    REQUIRE(sheet.rows.size() == 8);
    const SheetRow& third = sheet.rows[2];
    CHECK(third.number == "3");
    CHECK(third.interval == "5/4");
    CHECK(third.cents == "386.3"); // 386.3137139, by mpmath 1.2.1
    CHECK(third.note == "F♯4");
    CHECK(third.deviation == "−13.7");
    CHECK(third.next == "111.7"); // 16/15 is 111.7312853
    REQUIRE(third.steps.size() == 2);
    CHECK(third.steps[0].step == "4");
    CHECK(third.steps[0].error == "+13.7");
    CHECK(third.steps[1].step == "17");
    CHECK(third.steps[1].error == "−1.4"); // 17 * 1200/53 - 386.3137139 = -1.4080535
    CHECK(sheet.rows[0].deviation == "0.0");
    CHECK(third.place == Approx(0.32192809)); // log2(5/4)
}

TEST_CASE("The period closes the table without a step beyond it") {
    const Sheet sheet = sheet_of("3/2", "C4");
    CHECK(sheet.rows.back().interval == "2/1");
    CHECK(sheet.rows.back().cents == "1200.0");
    CHECK(sheet.rows.back().next.empty());
    CHECK(sheet.rows.back().place == 1);
}

TEST_CASE("The facts name tonic and reference with their frequencies") {
    const Sheet sheet = sheet_of("3/2", "D4");
    CHECK(sheet.facts[0].value == "D4 ≈ 293.66 Hz"); // 440 / 2^(7/12) = 293.66477
    CHECK(sheet.facts[1].value == "A4 = 440 Hz");
    CHECK(sheet.facts[2].value == "2/1, 1200.0 cents");
    CHECK(sheet.facts[4].value == "12 and 53 equal steps");
    CHECK(sheet_of("3/2", "D4-14c").facts[0].value == "D4 −14.0 cents ≈ 291.30 Hz");
}

TEST_CASE("Twelve steps are the keys only from a tonic that is a key") {
    CHECK(sheet_of("3/2", "D4").divisions[0].keys);
    CHECK_FALSE(sheet_of("3/2", "D4+20c").divisions[0].keys);
    CHECK_FALSE(sheet_of("3/2", "D4").divisions[1].keys);
}

TEST_CASE("The ruler names the keys as the degrees spell them") {
    const Sheet sheet = sheet_of("9/8,6/5,4/3,3/2,8/5,9/5", "D4");
    REQUIRE(sheet.ruler.size() == 2);
    CHECK(sheet.ruler[0].names.size() == 13);
    CHECK(sheet.ruler[0].names[0] == "D");
    CHECK(sheet.ruler[0].names[8] == "B♭");
    CHECK(sheet.ruler[1].count == 53);
    CHECK(sheet.ruler[1].step == Approx(1 / 53.0));
}

TEST_CASE("A division of another period has the steps that fit under the octave") {
    const Sheet sheet = sheet_of("3/2", "D4", 1, "13(3/1)");
    CHECK(sheet.divisions[1].text == "13 of 3/1");
    CHECK(sheet.divisions[1].expression == "13(3/1)");
    CHECK(sheet.ruler[1].count == 8); // 8 * 1901.955/13 = 1170.4 cents, 9 are 1316.7
}

TEST_CASE("A finer division than the ruler can count has no marks") {
    const Sheet sheet = sheet_of("3/2", "D4", 1, "10000000(1of1000)");
    CHECK(sheet.ruler[1].count == 0);
    CHECK(sheet.divisions[1].max_error == "0.0");
}

TEST_CASE("Without a period the ruler ends at the highest degree") {
    const Sheet sheet = sheet_of_file("name='Bells'\nperiod='none'\ndegrees=['600c','2400c']");
    CHECK(sheet.facts[2].value == "none");
    CHECK(sheet.rows.size() == 3);
    CHECK(sheet.rows[1].place == Approx(0.25));
    CHECK(sheet.rows[2].place == 1);
    CHECK(sheet.ruler[1].count == 106);
}

TEST_CASE("A measured degree is shown no finer than its uncertainty, which is rounded up") {
    const Sheet sheet = sheet_of_file(R"(name = 'Measured'
degrees = [{ interval = '203.46c', uncertainty = '3c' }, { interval = '386.36c', uncertainty = '0.41c' },
           '702c'])");
    CHECK(sheet.measured);
    CHECK(sheet.rows[1].cents == "203");
    CHECK(sheet.rows[1].uncertainty == "3");
    CHECK(sheet.rows[1].next == "183"); // 182.9, no finer than the coarser of both
    CHECK(sheet.rows[1].deviation == "+3");
    CHECK(sheet.rows[1].steps[1].error == "0"); // 203.774 - 203.46
    CHECK(sheet.rows[2].cents == "386.4");
    CHECK(sheet.rows[2].uncertainty == "0.5");
    CHECK(sheet.rows[2].next == "315.6");
    CHECK(sheet.rows[3].cents == "702.0");
    CHECK(sheet.divisions[0].max_error == "14"); // 400 - 386.36, no finer than the coarsest
    CHECK(sheet.cautions.size() == 1);
}

TEST_CASE("The caution about strings is for scales taken from an instrument, or on request") {
    const Comparison c = compare(parse_degrees("3/2", "test"));
    CHECK(make_sheet(c).cautions.empty());
    SheetOptions options;
    options.strings = true;
    CHECK(make_sheet(c, options).cautions.size() == 1);
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
    CHECK_THROWS_AS(sheet_of("3/2", "D4", 10'001), Error);
}
