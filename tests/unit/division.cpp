#include <sectio/division/division.hpp>

#include <support/errors.hpp>
#include <support/intervals.hpp>

using sectio::EqualDivision;
using sectio::Integer;
using sectio::Interval;
using support::interval;

TEST_CASE("The nearest step and its signed error") {
    struct Row {
        const char *division, *target;
        int step;
        const char* error_cents;
    };
    // Steps by hand: cents of the target, divided by the step's size.
    const Row row = GENERATE(values<Row>({{"12", "3/2", 7, "-1.955"},
                                          {"12", "5/4", 4, "13.686"},
                                          {"12", "7/4", 10, "31.174"},
                                          {"53", "3/2", 31, "-0.068"},
                                          {"53", "5/4", 17, "-1.408"},
                                          {"53", "81/80", 1, "1.135"},
                                          {"53", "9/8", 9, "-0.136"},
                                          {"19", "6/5", 5, "0.148"},
                                          {"31", "5/4", 10, "0.783"},
                                          {"1", "3/2", 1, "498.045"},
                                          {"1", "4/3", 0, "-498.045"},
                                          {"12", "1/1", 0, "0.000"},
                                          {"12", "2/3", -7, "1.955"},
                                          {"12", "3/1", 19, "-1.955"},
                                          {"13(3/1)", "7/3", 10, "-3.829"},
                                          {"13(3)", "3/1", 13, "0.000"},
                                          {"1(81/80)", "2/1", 56, "4.352"}}));
    INFO(row.target << " in " << row.division);
    const EqualDivision division = sectio::parse_division(row.division);
    CHECK(division.nearest(interval(row.target)) == row.step);
    CHECK(division.error(interval(row.target)).cents(3) == row.error_cents);
    CHECK(division.at(row.step) == interval(row.target) + division.error(interval(row.target)));
}

TEST_CASE("Half way between two steps the lower one is nearest") {
    struct Row {
        const char *division, *target;
        int step;
    };
    const Row row = GENERATE(values<Row>({{"12", "1of24", 0},
                                          {"12", "3of24", 1},
                                          {"12", "-1of24", -1},
                                          {"12", "50c", 0},
                                          {"12", "-50c", -1},
                                          {"12", "50.0000000000000000001c", 1},
                                          {"12", "49.9999999999999999999c", 0},
                                          {"7", "1of14", 0},
                                          {"1(9/4)", "3/2", 0},
                                          {"3(27/8)", "(3/2)^(1/2)", 0},
                                          {"3(27/8)", "(3/2)^(3/2)", 1},
                                          {"3(27/8)", "(3/2)^(-1/2)", -1},
                                          {"13(3/1)", "1of26(3/1)", 0}}));
    INFO(row.target << " in " << row.division);
    CHECK(sectio::parse_division(row.division).nearest(interval(row.target)) == row.step);
}

TEST_CASE("A step is found where doubles cannot find it") {
    // The step numbers themselves are 200 bits long.
    const Integer steps = Integer(1) << 200;
    const EqualDivision fine(steps);
    const Integer fifth = fine.nearest(interval("3/2"));
    CHECK(fine.at(fifth) - interval("3/2") <= Interval::from_steps(1, 2 * steps));
    CHECK(interval("3/2") - fine.at(fifth) <= Interval::from_steps(1, 2 * steps));

    // Periods that are commas of huge powers: convergents of log2(3), from PARI/GP contfracpnqn.
    // A double knows the size of such a comma to no digit, not even its sign.
    const char* period = GENERATE("3^53715833/2^85137581", "2^272500658/3^171928773",
                                  "3^10777225255/2^17081497891"); // to a double a falling interval
    const Interval comma = interval(period);
    REQUIRE(comma > Interval());
    INFO(period);
    const EqualDivision tiny(1, comma);
    for (const char* target : {"3/2", "1of53", "81/80", "1/1", "2/3"}) {
        const Interval error = tiny.error(interval(target));
        CHECK(error + error <= comma);
        CHECK(error + error >= -comma);
    }
}

TEST_CASE("Divisions are read and named") {
    CHECK(sectio::parse_division("53").text() == "53");
    CHECK(sectio::parse_division(" 53 ").text() == "53");
    CHECK(sectio::parse_division("13(3/1)").text() == "13 of 3/1");
    CHECK(sectio::parse_division("13 (3)").text() == "13 of 3/1");
    CHECK(sectio::parse_division("13(3⁄1)") == sectio::parse_division("13(3/1)"));
    CHECK(sectio::parse_division("7(3/2)").period() == interval("3/2"));
    CHECK(sectio::parse_division("12(2/1)") == EqualDivision(12));
}

TEST_CASE("Malformed divisions") {
    struct Row {
        const char *text, *message;
        std::size_t column;
    };
    const Row row = GENERATE(values<Row>({{"", "expected_division", 1},
                                          {"x", "expected_division", 1},
                                          {"-5", "expected_division", 1},
                                          {"0", "zero_division", 1},
                                          {"10000001", "expected_division", 1},
                                          {"99999999999999999999", "expected_division", 1},
                                          {"12.5", "expected_division", 1},
                                          {"12 tones", "expected_division", 4},
                                          {"12(", "expected_interval", 4},
                                          {"12(3/1", "missing_parenthesis", 3},
                                          {"12(1/1)", "period_not_rising", 3},
                                          {"12(1/2)", "period_not_rising", 3},
                                          {"12()", "expected_interval", 4}}));
    INFO(row.text);
    const auto error = support::error_of([&] { sectio::parse_division(row.text); });
    CHECK(support::name_of(error) == row.message);
    REQUIRE(error);
    CHECK(error->place().column == row.column);
    CHECK(support::name_of(support::error_of([] { EqualDivision(0); })) == "zero_division");
    CHECK(support::name_of(support::error_of([] { EqualDivision(12, Interval()); }))
          == "period_not_rising");
}
