// Sizes in cents and ratios as decimals: every printed digit is right, exact halves go to even.
// Long figures: PARI/GP 2.15, 1200*log(r)/log(2) at 100 digits.

#include <support/errors.hpp>
#include <support/intervals.hpp>

using support::interval;

TEST_CASE("Sizes in cents") {
    struct Row {
        const char* given;
        int digits;
        const char* cents;
    };
    const Row row = GENERATE(values<Row>({
        {"3/2", 0, "702"},
        {"3/2", 3, "701.955"},
        {"3/2", 50, "701.95500086538741774448673273737981051177728923097727"},
        {"2/3", 3, "-701.955"},
        {"2/1", 3, "1200.000"},
        {"5/4", 6, "386.313714"},
        {"81/80", 6, "21.506290"},
        {"12 x 3/2 - 7 x 2/1", 6, "23.460010"},
        {"5^(1/4)", 6, "696.578428"},
        {"7of13(3/1)", 3, "1024.130"},
        {"31of53", 6, "701.886792"},
        {"701.955c", 6, "701.955000"},
        {"701.955c", 2, "701.96"},
        {"-0.001c", 2, "0.00"}, // no minus before a zero
        {"-0.006c", 2, "-0.01"},
        {"3^1000000/2^1584962", 6, "600.865387"},
    }));
    INFO(row.given);
    CHECK(interval(row.given).cents(row.digits) == row.cents);
}

TEST_CASE("Exactly half goes to the even digit; a hair beyond does not") {
    struct Row {
        const char* given;
        int digits;
        const char* cents;
    };
    const Row row = GENERATE(values<Row>({{"0.5c", 0, "0"},
                                          {"1.5c", 0, "2"},
                                          {"2.5c", 0, "2"},
                                          {"-0.5c", 0, "0"},
                                          {"-1.5c", 0, "-2"},
                                          {"0.125c", 2, "0.12"},
                                          {"0.375c", 2, "0.38"},
                                          {"1of960", 1, "1.2"}, // 1.25
                                          {"3of960", 1, "3.8"}, // 3.75
                                          {"0.50000000000000000001c", 0, "1"},
                                          {"2.50000000000000000001c", 0, "3"},
                                          {"1.49999999999999999999c", 0, "1"},
                                          // 3/2 has 701.955000865387417744486732737... cents
                                          {"3/2 + 0.0454991346125822555132c", 3, "702.000"},
                                          {"3/2 + 0.0454991346125822555133c", 3, "702.001"},
                                          {"3/2 + 0.0455991346125822555133c", 3, "702.001"}}));
    INFO(row.given);
    CHECK(interval(row.given).cents(row.digits) == row.cents);
}

TEST_CASE("Frequency ratios as decimals") {
    struct Row {
        const char* given;
        int digits;
        const char* ratio;
    };
    const Row row =
        GENERATE(values<Row>({{"3/2", 3, "1.500"},
                              {"4/3", 5, "1.33333"},
                              {"5/3", 5, "1.66667"},
                              {"5/2", 0, "2"}, // half to even
                              {"7/2", 0, "4"},
                              {"1of2", 30, "1.414213562373095048801688724210"}, // OEIS A002193
                              {"1of12", 20, "1.05946309435929526456"},          // OEIS A010774
                              {"-1of2", 10, "0.7071067812"},
                              {"1/1", 2, "1.00"},
                              {"1/8", 2, "0.12"},
                              {"3/8", 2, "0.38"}}));
    INFO(row.given);
    CHECK(interval(row.given).decimal(row.digits) == row.ratio);
}

TEST_CASE("Digits and lengths that are refused") {
    using support::error_of;
    using support::name_of;
    const auto fifth = interval("3/2");
    CHECK(name_of(error_of([&] { fifth.cents(-1); })) == "digits_out_of_range");
    CHECK(name_of(error_of([&] { fifth.cents(10'001); })) == "digits_out_of_range");
    CHECK(name_of(error_of([&] { fifth.decimal(10'001); })) == "digits_out_of_range");
    CHECK(fifth.cents(10'000).size() == 10'004);
    CHECK(name_of(error_of([] { interval("3^9000").decimal(3); })) == "ratio_out_of_reach");
    CHECK(name_of(error_of([] { interval("9001of2").decimal(3); })) == "ratio_out_of_reach");
    CHECK(interval("3^9000").cents(3) == "17117595.008"); // 9000 * 1901.955000865…
}

TEST_CASE("An estimate is within its bound") {
    struct Row {
        const char *given, *octaves; // to 30 digits
    };
    const Row row = GENERATE(values<Row>({{"3/2", "0.584962500721156181453738943948"},
                                          {"2/3", "-0.584962500721156181453738943948"},
                                          {"81/80", "0.017921907997262377944636346302"},
                                          {"31of53", "0.584905660377358490566037735849"},
                                          {"5^(1/4)", "0.580482023721840586967579857372"}}));
    const auto estimate = interval(row.given).estimate();
    CHECK(std::abs(estimate.value - std::stod(row.octaves)) <= estimate.error_bound + 1e-16);
    CHECK(estimate.error_bound < 1e-13);
}
