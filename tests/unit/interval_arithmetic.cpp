#include <support/errors.hpp>
#include <support/intervals.hpp>

using sectio::Integer;
using sectio::Interval;
using sectio::Rational;
using support::interval;

TEST_CASE("Sums, differences and multiples by hand") {
    struct Row {
        const char *computed, *expected;
    };
    // Products of fractions, worked out by hand.
    const Row row = GENERATE(values<Row>({{"3/2 + 4/3", "2/1"},
                                          {"3/2 + 3/2", "9/4"},
                                          {"5/4 + 6/5", "3/2"},
                                          {"3/2 - 4/3", "9/8"},
                                          {"9/8 - 10/9", "81/80"},
                                          {"2 x 9/8", "81/64"},
                                          {"3 x 5/4", "125/64"},
                                          {"12 x 3/2 - 7 x 2/1", "531441/524288"},
                                          {"53 x 3/2 - 31 x 2/1", "3^53/2^84"},
                                          {"3 x 2/1 - 4 x 5/4 + 0 x 7/4", "2048/625"},
                                          {"-3/2 + 3/2", "1/1"},
                                          {"(3/2)^2", "9/4"},
                                          {"(3/2)^-1", "2/3"},
                                          {"(9/4)^(1/2)", "3/2"},
                                          {"(27/8)^(2/3)", "9/4"},
                                          {"7of12 + 5of12", "2/1"},
                                          {"12 x 1of12", "2/1"},
                                          {"31of53 + 22of53", "2/1"},
                                          {"53 x 31of53", "31 x 2/1"},
                                          {"13 x 1of13(3/1)", "3/1"},
                                          {"6of12", "2^(1/2)"},
                                          {"600c", "1of2"},
                                          {"1200c", "2/1"},
                                          {"701.955c", "701955of1200000"},
                                          {"100c + 1of12", "200c"},
                                          {"4 x 5^(1/4)", "5/1"},
                                          {"2of4(9/4)", "3/2"},
                                          {"1of2(9/4) + 1of2(4)", "3/1"}}));
    CHECK(interval(row.computed) == interval(row.expected));
}

TEST_CASE("What is different is not equal, however near") {
    // 53 fifths less 31 octaves is Mercator's comma, 3.6 cents; 1of53 is 22.6.
    CHECK(interval("53 x 3/2 - 31 x 2/1") != interval("1of53"));
    CHECK(interval("53 x 3/2 - 31 x 2/1") < interval("1of53"));
    CHECK(interval("3/2") != interval("701.955000865387c"));
    CHECK(interval("3/2") > interval("701.955000865387c")); // the size goes on 3541769…
    CHECK(interval("3/2") < interval("701.955000865388c"));
    CHECK(interval("5^(1/4)") != interval("2786313714of4800000000"));
    CHECK(interval("7/5 + 10/7") == interval("2/1"));
    CHECK(interval("7/5") < interval("10/7"));
    CHECK(interval("6of12") > interval("7/5"));
    CHECK(interval("6of12") < interval("10/7"));
}

TEST_CASE("The unison is neutral and the same however it is reached") {
    for (const char* text : {"1/1", "1", "0of12", "0c", "7/7", "3/2 - 3/2", "0 x 3/2", "(5/4)^0",
                             "1of7(3) - 1of7(3)", "-0c", "0of5(7/4)"}) {
        INFO(text);
        CHECK(interval(text).is_unison());
        CHECK(interval(text) == Interval());
        CHECK(interval(text).cents(2) == "0.00");
        CHECK(sectio::to_expression(interval(text)) == "1/1");
    }
}

TEST_CASE("Reduction into a period") {
    struct Row {
        const char *given, *period, *reduced;
        int periods;
    };
    const Row row = GENERATE(values<Row>({{"3/1", "2/1", "3/2", 1},
                                          {"1/3", "2/1", "4/3", -2},
                                          {"2/1", "2/1", "1/1", 1},
                                          {"1/2", "2/1", "1/1", -1},
                                          {"1/1", "2/1", "1/1", 0},
                                          {"15/8", "2/1", "15/8", 0},
                                          {"9/1", "3/1", "1/1", 2},
                                          {"10/1", "3/1", "10/9", 2},
                                          {"54of53", "2/1", "1of53", 1},
                                          {"-1of53", "2/1", "52of53", -1},
                                          {"1201c", "2/1", "1c", 1},
                                          {"25of12", "1of12", "1/1", 25},
                                          {"2/1", "5^(1/4)", "2/5^(1/4)", 1},
                                          {"3^1000", "2/1", "3^1000/2^1584", 1584}}));
    INFO(row.given << " in " << row.period);
    const Interval given = interval(row.given), period = interval(row.period);
    CHECK(sectio::reduced(given, period)
          == (std::string(row.reduced) == "2/5^(1/4)" ? interval("2/1") - interval("5^(1/4)")
                                                      : interval(row.reduced)));
    CHECK(sectio::whole_periods(given, period) == row.periods);
}

TEST_CASE("Absolute size and exact quotients") {
    CHECK(sectio::absolute(interval("2/3")) == interval("3/2"));
    CHECK(sectio::absolute(interval("3/2")) == interval("3/2"));
    CHECK(sectio::absolute(Interval()) == Interval());
    CHECK(sectio::exact_quotient(interval("9/4"), interval("3/2")) == Rational(2));
    CHECK(sectio::exact_quotient(interval("7of12"), interval("1of53")) == Rational(371, 12));
    CHECK(sectio::exact_quotient(interval("4/9"), interval("(3/2)^(1/5)")) == Rational(-10));
    CHECK(sectio::exact_quotient(Interval(), interval("3/2")) == Rational(0));
    CHECK_FALSE(sectio::exact_quotient(interval("3/2"), interval("2/1")));
    CHECK_FALSE(sectio::exact_quotient(interval("9/8"), interval("3/2")));
}

TEST_CASE("Rational or not, and in whole fractions of a cent or not") {
    CHECK(interval("3/2").is_ratio());
    CHECK(interval("3/2").ratio() == Rational(3, 2));
    CHECK_FALSE(interval("7of12").is_ratio());
    CHECK_FALSE(interval("7of12").ratio());
    CHECK(interval("24of12").ratio() == Rational(4));
    CHECK(interval("3^9000").is_ratio());
    CHECK_FALSE(interval("3^9000").ratio()); // 14265 bits
    CHECK(interval("7of12").exact_cents() == Rational(700));
    CHECK(interval("31of53").exact_cents() == Rational(37200, 53));
    CHECK(interval("701.955c").exact_cents() == Rational(701955, 1000));
    CHECK(interval("1/4").exact_cents() == Rational(-2400));
    CHECK(Interval().exact_cents() == Rational(0));
    CHECK_FALSE(interval("3/2").exact_cents());
    CHECK_FALSE(interval("5^(1/4)").exact_cents());
}

TEST_CASE("Order by hand") {
    const std::vector<const char*> rising{
        "3^-9000", "1/2",   "-1of53",    "-0.001c",     "1/1",   "32805/32768",   "2c",
        "81/80",   "1of53", "3^12/2^19", "16/15",       "10/9",  "5^(1/4) - 4/3", "2of12",
        "9/8",     "1of4",  "6/5",       "(3/2)^(1/2)", "5/4",   "399c",          "3of9",
        "5of15",   "401c",  "81/64",     "4/3",         "5of12", "6of12",         "(81/80)^30",
        "3/2",     "702c",  "5^(1/2)",   "9/4",         "3/1",   "2^4095",        "2^4096",
        "3^9000"};
    std::vector<Interval> read;
    for (const char* text : rising)
        read.push_back(interval(text));
    for (std::size_t i = 0; i < read.size(); ++i)
        for (std::size_t j = 0; j < read.size(); ++j) {
            INFO(rising[i] << " against " << rising[j]);
            // 3of9 and 5of15 are one.
            const bool same = read[i] == read[j];
            if (!same)
                CHECK((read[i] < read[j]) == (i < j));
        }
}

TEST_CASE("Order beyond what the printed limits hold") {
    // Exponents of 200 bits are within the limits; the difference of two has 400.
    const std::string p =
        "1606938044258990275541962092341162602522202993782792835301399"; // 2^200+23
    const std::string q =
        "1606938044258990275541962092341162602522202993782792835301611"; // 2^200+235
    const Interval a = interval("1of" + p), b = interval("1of" + q);
    CHECK(a > b);
    CHECK(b < a);
    CHECK(a != b);
    CHECK(interval("1of" + p + "(3)") > interval("1of" + q + "(3)"));
    CHECK(interval("3^1000000/2^1584962") > Interval());
    CHECK(interval("3^1000000/2^1584963") < Interval());
}
