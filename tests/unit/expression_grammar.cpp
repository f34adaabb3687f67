// What the grammar of expression.hpp accepts, and that a sign reads as its ASCII twin.

#include <support/errors.hpp>
#include <support/intervals.hpp>

using sectio::Interval;
using support::interval;

TEST_CASE("Spellings of one interval") {
    struct Row {
        const char *written, *meant;
    };
    const Row row =
        GENERATE(values<Row>({{"3:2", "3/2"},
                              {"3 : 2", "3/2"},
                              {" 3 / 2 ", "3/2"},
                              {"6/4", "3/2"},
                              {"003/02", "3/2"},
                              {"2", "2/1"},
                              {"(3)/(2)", "3/2"},
                              {"(3/2)", "3/2"},
                              {"((3/2))", "3/2"},
                              {"(3 + 5)/(2 + 2)", "15/4"},
                              {"31 of 53", "31of53"},
                              {"31of 53", "31of53"},
                              {"31 of53", "31of53"},
                              {"\"31 of 53\"", "31of53"},
                              {"\"3/2\" + 5/4", "15/8"},
                              {"031of053", "31of53"},
                              {"7of13(3)", "7of13(3/1)"},
                              {"7of13( 3 / 1 )", "7of13(3/1)"},
                              {"7of13(12of12 + 3/2)", "7of13(3/1)"},
                              {"1of2(1of2(16))", "2/1"},
                              {"701.955 c", "701.955c"},
                              {"701.955cents", "701.955c"},
                              {"1 cent", "1c"},
                              {"701.9550c", "701.955c"},
                              {"0701.955c", "701.955c"},
                              {"-12 x 3/2", "(2/3)^12"},
                              {"12x3/2", "12 x 3/2"},
                              {"2 x 3 x 3/2", "6 x 3/2"},
                              {"2 x (3/2 - 4/3)", "2 x 9/8"},
                              {"3/2-4/3", "9/8"},
                              {"1 - 3/2", "2/3"},
                              {"- 3/2", "2/3"},
                              {"(-3/2)", "2/3"},
                              {"3^2/2^3", "9/8"},
                              {"3 ^ 2", "9"},
                              {"2^3^2", "2^6"}, // from the left, as written on a line
                              {"5^(1/4)", "1of4(5)"},
                              {"5^( 1 / 4 )", "1of4(5)"},
                              {"5^(-1/4)", "-1of4(5)"},
                              {"5^-1", "1/5"},
                              {"5^(0.25)", "5^(1/4)"},
                              {"5^0.25", "5^(1/4)"},
                              {"2^-4 3^4 5^-1", "81/80"}, // as factors are printed
                              {"2⁻⁴ 3⁴ 5⁻¹", "81/80"},
                              {"2^-3 3 5", "15/8"},
                              {"3^1 5^1", "15"},
                              {"2^(1/2)  3^-1", "2^(1/2) - 3"},
                              {"12 x 2^-1 3^1", "12 x 3/2"},
                              {"5/4 - 2^-3 3^2", "5/4 - 9/8"},
                              {"(2^-3 3^2)^2", "81/64"},
                              {"5^(2)", "25"},
                              {"(3/2)^(2/7)", "2of7(3/2)"},
                              {"(12 x 3/2 - 7 x 2/1)^(1/4)", "(531441/524288)^(1/4)"}}));
    INFO(row.written);
    CHECK(interval(row.written) == interval(row.meant));
}

TEST_CASE("A Unicode sign reads as its ASCII twin") {
    struct Row {
        const char *unicode, *ascii;
    };
    const Row row = GENERATE(values<Row>({{"12 × 3/2", "12 x 3/2"},
                                          {"12 ✕ 3/2", "12 x 3/2"},
                                          {"3/2 − 4/3", "3/2 - 4/3"}, // U+2212
                                          {"3/2 – 4/3", "3/2 - 4/3"}, // en dash
                                          {"3/2 ‐ 4/3", "3/2 - 4/3"}, // U+2010
                                          {"3/2 ‑ 4/3", "3/2 - 4/3"}, // U+2011
                                          {"3/2 ＋ 4/3", "3/2 + 4/3"},
                                          {"701.955¢", "701.955c"},
                                          {"701.955 ¢", "701.955c"},
                                          {"3∶2", "3:2"},
                                          {"3⁄2", "3/2"},
                                          {"3∕2", "3/2"},
                                          {"3÷2", "3/2"},
                                          {"2⁵", "2^5"},
                                          {"2¹⁰", "2^10"},
                                          {"2⁻³", "2^-3"},
                                          {"3⁵³/2⁸⁴", "3^53/2^84"},
                                          {"(3/2)² + 5²", "(3/2)^2 + 5^2"},
                                          {"“31 of 53”", "\"31 of 53\""},
                                          {"„31 of 53”", "\"31 of 53\""},
                                          {"«31 of 53»", "\"31 of 53\""},
                                          {"3/2\u00A0+\u202F5/4", "3/2 + 5/4"},
                                          {"3/2\u2002+\u20035/4", "3/2 + 5/4"},
                                          {"3/2\u2009+\u200A5/4", "3/2 + 5/4"},
                                          {"3/2\t+\r\n5/4", "3/2 + 5/4"}}));
    INFO(row.unicode);
    CHECK(interval(row.unicode) == interval(row.ascii));
}

TEST_CASE("Names are looked up, quoted or plain, as far as a sign that stands apart") {
    const sectio::NameLookup names = [](std::string_view name) -> std::optional<Interval> {
        if (name == "syntonic comma")
            return Interval::from_ratio(81, 80);
        if (name == "fifth" || name == "kleine Quint" || name == "quinte")
            return Interval::from_ratio(3, 2);
        if (name == "half-fifth")
            return Interval::from_ratio(3, 2) * sectio::Rational(1, 2);
        if (name == "53rd step")
            return Interval::from_steps(1, 53);
        return std::nullopt;
    };
    struct Row {
        const char *written, *meant;
    };
    const Row row = GENERATE(values<Row>({{"\"syntonic comma\"", "81/80"},
                                          {"syntonic comma", "81/80"},
                                          {"  syntonic comma  ", "81/80"},
                                          {"syntonic   comma", "81/80"},
                                          {"\" syntonic  comma\"", "81/80"},
                                          {"53rd step", "1of53"},
                                          {"53rd  step + 3/2", "1of53 + 3/2"},
                                          {"syntonic comma + 3/2", "243/160"},
                                          {"3/2 - syntonic comma", "40/27"},
                                          {"half-fifth + half-fifth", "3/2"},
                                          {"4 x syntonic comma", "(81/80)^4"},
                                          {"4 x fifth - 2/1", "81/32"},
                                          {"(syntonic comma)^(1/4)", "(81/80)^(1/4)"},
                                          {"syntonic comma^(1/4)", "(81/80)^(1/4)"},
                                          {"“kleine Quint”", "3/2"},
                                          {"1of2(fifth)", "(3/2)^(1/2)"},
                                          {"\"53rd step\"", "1of53"}}));
    INFO(row.written);
    CHECK(sectio::parse_interval(row.written, {}, names) == interval(row.meant));
}
