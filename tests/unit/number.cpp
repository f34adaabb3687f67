#include <support/intervals.hpp>

using sectio::Integer;
using sectio::Rational;

TEST_CASE("Floors and halves to even") {
    struct Row {
        int numerator, denominator, floor, rounded;
    };
    const Row row = GENERATE(values<Row>({{0, 1, 0, 0},
                                          {1, 2, 0, 0},
                                          {3, 2, 1, 2},
                                          {5, 2, 2, 2},
                                          {-1, 2, -1, 0},
                                          {-3, 2, -2, -2},
                                          {-5, 2, -3, -2},
                                          {7, 3, 2, 2},
                                          {8, 3, 2, 3},
                                          {-7, 3, -3, -2},
                                          {-8, 3, -3, -3},
                                          {6, 3, 2, 2}}));
    const Rational r(row.numerator, row.denominator);
    CHECK(sectio::floor(r) == row.floor);
    CHECK(sectio::round_half_even(r) == row.rounded);
}

TEST_CASE("Decimals of fractions") {
    CHECK(sectio::decimal(Rational(1, 3), 4) == "0.3333");
    CHECK(sectio::decimal(Rational(2, 3), 4) == "0.6667");
    CHECK(sectio::decimal(Rational(-2, 3), 0) == "-1");
    CHECK(sectio::decimal(Rational(1, 8), 2) == "0.12");
    CHECK(sectio::decimal(Rational(-1, 8), 2) == "-0.12");
    CHECK(sectio::decimal(Rational(-1, 1000), 2) == "0.00");
    CHECK(sectio::decimal(Rational(100), 3) == "100.000");
    CHECK(sectio::decimal_text(-1234, 2) == "-12.34");
    CHECK(sectio::decimal_text(5, 3) == "0.005");
    CHECK(sectio::decimal_text(-5, 3) == "-0.005");
    CHECK(sectio::decimal_text(5, 0) == "5");
}

TEST_CASE("Exact decimals exist for denominators of twos and fives only") {
    CHECK(sectio::exact_decimal(Rational(-1, 4)) == "-0.25");
    CHECK(sectio::exact_decimal(Rational(3)) == "3");
    CHECK(sectio::exact_decimal(Rational(7, 40)) == "0.175");
    CHECK(sectio::exact_decimal(Rational(1, 1024)) == "0.0009765625");
    CHECK(sectio::exact_decimal(Rational(1, 3)).empty());
    CHECK(sectio::exact_decimal(Rational(1, 30)).empty());
}

TEST_CASE("Decimals are read exactly") {
    CHECK(sectio::parse_decimal("12") == Rational(12));
    CHECK(sectio::parse_decimal("-0.25") == Rational(-1, 4));
    CHECK(sectio::parse_decimal("701.955") == Rational(701955, 1000));
    CHECK(sectio::parse_decimal("0010") == Rational(10)); // not octal
    CHECK(sectio::parse_decimal("0.010") == Rational(1, 100));
    CHECK(sectio::parse_decimal("0") == Rational(0));
    CHECK(sectio::parse_decimal("000") == Rational(0));
}

TEST_CASE("Lengths and powers of ten") {
    CHECK(sectio::bit_length(0) == 0);
    CHECK(sectio::bit_length(1) == 1);
    CHECK(sectio::bit_length(-1) == 1);
    CHECK(sectio::bit_length(255) == 8);
    CHECK(sectio::bit_length(256) == 9);
    CHECK(sectio::power_of_ten(0) == 1);
    CHECK(sectio::power_of_ten(20) == Integer("100000000000000000000"));
}
