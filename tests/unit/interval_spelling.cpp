#include <support/intervals.hpp>

using support::interval;

TEST_CASE("An interval is printed in its simplest spelling") {
    struct Row {
        const char *given, *printed;
    };
    const Row row = GENERATE(values<Row>({
        // Ratios in lowest terms.
        {"3/2", "3/2"},
        {"6:4", "3/2"},
        {"2", "2/1"},
        {"-5/4", "4/5"},
        {"12 x 3/2 - 7 x 2/1", "531441/524288"},
        {"24of12", "4/1"},
        {"2400c", "4/1"},
        {"4 x 5^(1/4)", "5/1"},
        {"(9/4)^(1/2)", "3/2"},
        // Longer than terms may be.
        {"3^9000/2^14000", "3^9000/2^14000"},
        {"2^14000/3^9000", "2^14000/3^9000"},
        {"3^9000", "3^9000"},
        {"3^-9000", "1/3^9000"},
        {"3^9000 + 5^9000 - 2^9000", "(3^9000 + 5^9000)/2^9000"},
        // Steps of the octave.
        {"31of53", "31of53"},
        {"62 of 106", "31of53"},
        {"6of12", "1of2"},
        {"-31of53", "-31of53"},
        {"700c", "7of12"},
        {"2^(1/4)", "1of4"},
        {"119of120", "1190c"},
        {"350c", "7of24"}, // as many signs
        {"150c", "1of8"},
        {"(3/2)^(1/2) - 3^(1/2)", "-1of2"},
        // Cents where they take fewer signs.
        {"10c", "10c"},
        {"352c", "352c"},
        {"50c", "50c"},
        {"1of24", "50c"},
        {"701.955c", "701.955c"},
        {"-0.25c", "-0.25c"},
        {"5c", "5c"},
        {"1of1200", "1c"},
        {"1of480", "2.5c"},
        {"1of121", "1of121"}, // no finite decimal
        {"100of1201", "100of1201"},
        // Steps of other periods, from five steps on.
        {"7of13(3/1)", "7of13(3/1)"},
        {"14of26(3)", "7of13(3/1)"},
        {"-7of13(3)", "-7of13(3/1)"},
        {"1of7(3/2)", "1of7(3/2)"},
        {"1of5(9/4)", "2of5(3/2)"},
        {"1of2(4/1) + 1of5(3/2)", "1of5(48/1)"},
        // Roots.
        {"5^(1/4)", "5^(1/4)"},
        {"1of4(5)", "5^(1/4)"},
        {"5^(-1/4)", "5^(-1/4)"},
        {"(1/5)^(1/4)", "5^(-1/4)"},
        {"(80/81)^(1/4)", "(80/81)^(1/4)"},
        {"1of11(81/80)", "(81/80)^(1/11)"},
        {"3^(1/2) + 5^(1/2)", "15^(1/2)"},
        {"10^(3/4)", "10^(3/4)"},
        // Anything else as a stack of powers.
        {"3^(1/2) + 5^(1/3)", "1of6(675/1)"},
    }));
    const std::string printed = sectio::to_expression(interval(row.given));
    INFO(row.given << " printed " << printed);
    CHECK(interval(printed) == interval(row.given));
    CHECK(printed == row.printed);
}

TEST_CASE("Even exponents beyond what one root can hold are printed") {
    const std::string p =
        "1606938044258990275541962092341162602522202993782792835301399"; // 2^200+23
    const std::string q =
        "1606938044258990275541962092341162602522202993782792835301611"; // 2^200+235
    const auto odd = interval("1of" + p + "(3) + 1of" + q + "(5)");
    CHECK(interval(sectio::to_expression(odd)) == odd);
    const auto odder = interval("3^(" + q + "/" + p + ") + 5^(" + p + "/" + q + ")");
    CHECK(interval(sectio::to_expression(odder)) == odder);
}
