// Every malformed expression gives a message, the piece, its column and an advice.

#include <sectio/base/messages.hpp>
#include <sectio/interval/messages.hpp>

#include <support/errors.hpp>
#include <support/intervals.hpp>

using sectio::Message;

TEST_CASE("Malformed expressions: message, column and piece") {
    struct Row {
        const char* text;
        Message id;
        std::size_t column;
        const char* piece;
    };
    const Row row = GENERATE(values<Row>({
        {"", sectio::message::empty_expression, 1, ""},
        {"   ", sectio::message::empty_expression, 4, "   "},
        {"()", sectio::message::expected_interval, 2, ")"},
        {"3/2 +", sectio::message::expected_interval, 6, "3/2 +"},
        {"3/2 + + 5/4", sectio::message::expected_interval, 7, "+"},
        {"3/2 + -5/4", sectio::message::expected_interval, 7, "-5/4"},
        {"--3/2", sectio::message::expected_interval, 2, "-3/2"},
        {"+3/2", sectio::message::expected_interval, 1, "+3/2"},
        {"/2", sectio::message::expected_interval, 1, "/2"},
        {"^2", sectio::message::expected_interval, 1, "^2"},
        {"3/2 5/4", sectio::message::unexpected_text, 5, "5/4"},
        {"3/2)", sectio::message::unexpected_text, 4, ")"},
        {"3/2 c", sectio::message::expected_denominator, 3, "2"}, // 2 cents
        {".5c", sectio::message::expected_interval, 1, ".5c"},
        {"2 x 2^256 x", sectio::message::unexpected_text, 11, "x"},
        {"3/2/5", sectio::message::unexpected_text, 4, "/5"},
        {"4:5:6", sectio::message::unexpected_text, 4, ":6"},
        {"31of53/2", sectio::message::unexpected_text, 7, "/2"},
        {"50c/2", sectio::message::unexpected_text, 4, "/2"},
        {"(3/2 5/4)", sectio::message::unexpected_text, 6, "5/4)"},
        {"3.", sectio::message::unexpected_text, 2, "."},
        {"H4", sectio::message::note_of_another_language, 1, "H4"},
        {"Fis4", sectio::message::note_of_another_language, 1, "Fis4"},
        {"F#", sectio::message::missing_octave, 3, "F#"},
        {"Daphne", sectio::message::unknown_interval_name, 1, "Daphne"},
        {"fifht", sectio::message::unknown_interval_name, 1, "fifht"},
        {"?", sectio::message::unknown_character, 1, "?"},
        {"3/2 + $", sectio::message::unknown_character, 7, "$"},
        {"=3/2", sectio::message::unknown_character, 1, "=3/2"},
        {"3/2 * 5/4", sectio::message::multiplication_sign, 5, "*"},
        {"3/2 · 5/4", sectio::message::multiplication_sign, 5, "·"},
        {"3/2 × 5/4", sectio::message::multiplication_sign, 5, "×"},
        {"3/2 x 5/4", sectio::message::multiplication_sign, 5, "x"},
        {"(3/2 x5/4)", sectio::message::multiplication_sign, 6, "x5/4)"},
        {"2 3", sectio::message::unexpected_text, 3, "3"},
        {"2^3 5/4", sectio::message::unexpected_text, 5, "5/4"},
        {"2^3 7of12", sectio::message::unexpected_text, 5, "7of12"},
        {"2^3 7 of 12", sectio::message::unexpected_text, 5, "7"},
        {"(2^3) 7^2", sectio::message::unexpected_text, 7, "7^2"},
        {"7of12 2^2", sectio::message::unexpected_text, 7, "2^2"},
        {"11th nonsense", sectio::message::unexpected_text, 3, "th"},
        {"(3/2*5/4)", sectio::message::multiplication_sign, 5, "*5/4)"},
        {"701.955", sectio::message::decimal_without_cents, 1, "701.955"},
        {"3/2 + 1.5", sectio::message::decimal_without_cents, 7, "1.5"},
        {"1.5/2", sectio::message::decimal_without_cents, 1, "1.5/2"},
        {"701,955c", sectio::message::decimal_comma, 1, "701,955c"},
        {"(3/2", sectio::message::missing_parenthesis, 1, "(3/2"},
        {"3/2 + (5/4 + 6/5", sectio::message::missing_parenthesis, 7, "(5/4"},
        {"5^(1/4", sectio::message::missing_parenthesis, 3, "(1/4"},
        {"7of13(3/1", sectio::message::missing_parenthesis, 6, "(3/1"},
        {"\"syntonic", sectio::message::missing_quote, 1, "\"syntonic"},
        {"31of", sectio::message::expected_steps, 5, "31of"},
        {"31 of x", sectio::message::expected_steps, 7, "x"},
        {"1.5of12", sectio::message::steps_not_whole, 1, "1.5of12"},
        {"31of53.5", sectio::message::steps_not_whole, 5, "53.5"},
        {"3/", sectio::message::expected_denominator, 3, "3/"},
        {"3//2", sectio::message::expected_denominator, 3, "/2"},
        {"3/x", sectio::message::expected_denominator, 3, "x"},
        {"3/-2", sectio::message::expected_denominator, 3, "-2"},
        {"3/31of53", sectio::message::expected_denominator, 3, "31of53"},
        {"5^", sectio::message::expected_exponent, 3, "5^"},
        {"5^x", sectio::message::expected_exponent, 3, "x"},
        {"5^()", sectio::message::expected_exponent, 4, ")"},
        {"5^(1/)", sectio::message::expected_exponent, 6, ")"},
        {"5^1.", sectio::message::unexpected_text, 4, "."},
        {"5^(1/0)", sectio::message::zero_denominator, 6, "0)"},
        {"12 x", sectio::message::expected_repeated, 5, "12 x"},
        {"3/0", sectio::message::zero_term, 3, "0"},
        {"0", sectio::message::zero_term, 1, "0"},
        {"0/5", sectio::message::zero_term, 1, "0/5"},
        {"31of0", sectio::message::zero_division, 5, "0"},
        {"1of2(1/1)", sectio::message::period_not_rising, 5, "(1/1)"},
        {"1of2(2/3)", sectio::message::period_not_rising, 5, "(2/3)"},
        {"no such comma", sectio::message::unknown_interval_name, 1, "no such comma"},
        {"\"no such comma\" + 3/2", sectio::message::unknown_interval_name, 1, "no such comma"},
        {"3/2 + nonsense - 1", sectio::message::unknown_interval_name, 7, "nonsense"},
        {"D4", sectio::message::pitch_not_interval, 1, "D4"},
        {"F#4-14c", sectio::message::pitch_not_interval, 1, "F#4-14c"},
        {"B♭3", sectio::message::pitch_not_interval, 1, "B♭3"},
        {"440Hz", sectio::message::pitch_not_interval, 1, "440Hz"},
        {"440 Hz", sectio::message::pitch_not_interval, 1, "440"},
        {"440.5Hz", sectio::message::pitch_not_interval, 1, "440.5Hz"},
        {"3/2 \xFF", sectio::message::not_utf8, 5, ""},
        {"\xC0\x80", sectio::message::not_utf8, 1, ""},         // overlong
        {"\xED\xA0\x80", sectio::message::not_utf8, 1, ""},     // surrogate
        {"\xF4\x90\x80\x80", sectio::message::not_utf8, 1, ""}, // above U+10FFFF
        {"♯♯ \xE2\x99", sectio::message::not_utf8, 4, ""},      // cut short
    }));
    INFO(row.text);
    const auto error = support::error_of([&] { support::interval(row.text); });
    REQUIRE(error);
    INFO(error->what());
    CHECK(error->id() == row.id);
    CHECK(error->place().column == row.column);
    CHECK(error->piece() == row.piece);
    CHECK(error->code() == sectio::ErrorCode::unusable);
    CHECK_FALSE(error->advice().empty());
}

TEST_CASE("An advice names what would have been right") {
    struct Row {
        const char *text, *advice;
    };
    const Row row =
        GENERATE(values<Row>({{"701.955", "write 701.955c for cents, or a ratio of whole numbers"},
                              {"701,955c", "write a point: 701.955c"},
                              {"3 nonsense", "join intervals with + or -, such as 3/2 + 5/4"},
                              {"5^()", "write a whole number or a fraction in parentheses, such as "
                                       "^2 or ^(1/4)"}}));
    const auto error = support::error_of([&] { support::interval(row.text); });
    REQUIRE(error);
    CHECK(error->advice() == row.advice);
}

TEST_CASE("Columns count characters from where the text begins") {
    const auto error = support::error_of([] {
        sectio::parse_interval("3⁄2 − ″", {"scale.toml", 7, 15});
    });
    REQUIRE(error);
    CHECK(error->place().text() == "scale.toml:7:21");
    CHECK(std::string(error->what()).rfind("scale.toml:7:21: ", 0) == 0);

    // A sign that reads as two characters counts once: the superscript stands for "^2".
    const auto after = support::error_of([] { support::interval("2² ?"); });
    REQUIRE(after);
    CHECK(after->place().column == 4);
}

TEST_CASE("What the engine refuses knows the expression it stood in") {
    const auto error = support::error_of([] {
        sectio::parse_interval("(2^(1/7))^(2^9)", {"argument", 0, 0});
    });
    REQUIRE(error);
    CHECK(error->place().source == "argument");
    const std::string huge = "3^" + std::string(100, '9');
    const auto refused = support::error_of([&] { sectio::parse_interval(huge, {"a.toml", 3, 5}); });
    REQUIRE(refused);
    CHECK(refused->id() == sectio::message::exponent_too_large);
    CHECK(refused->place().text() == "a.toml:3:5");
    CHECK(refused->piece() == huge);
}

TEST_CASE("A long piece is cut in the line, between characters, and kept in the error") {
    const std::string name = "x" + std::string(29, 'y') + "♯♯♯♯♯♯♯♯♯♯♯♯♯♯♯♯♯♯";
    const auto error = support::error_of([&] { support::interval("\"" + name + "\""); });
    REQUIRE(error);
    CHECK(error->piece() == name);
    const std::string line = error->what();
    CHECK(line.find("x" + std::string(29, 'y') + "♯♯♯♯♯♯♯♯♯♯…`") != std::string::npos);
}

TEST_CASE("Where a size is asked, a bare number lacks its unit") {
    struct Row {
        const char* text;
        std::size_t column;
        const char* advice;
    };
    const Row row =
        GENERATE(values<Row>({{"45", 1, "write 45c for cents, or a ratio such as 81/80"},
                              {" 3 ", 2, "write 3c for cents, or a ratio such as 81/80"},
                              {"-45", 2, "write 45c for cents, or a ratio such as 81/80"},
                              {"5c + 40", 6, "write 40c for cents, or a ratio such as 81/80"},
                              {"2 x 45", 1, "write 2 x 45c for cents, or a ratio such as 81/80"},
                              {"(45)", 1, "write (45)c for cents, or a ratio such as 81/80"},
                              {"\"45\"", 2, "write 45c for cents, or a ratio such as 81/80"}}));
    INFO(row.text);
    const auto error = support::error_of([&] { sectio::parse_size(row.text, {"--below"}); });
    REQUIRE(error);
    CHECK(error->id() == sectio::message::size_needs_unit);
    CHECK(error->place().column == row.column);
    CHECK(error->advice() == row.advice);
}

TEST_CASE("Every other interval is a size") {
    const std::string_view text = GENERATE("45c", "81/80", "2^7", "1of53", "3of13(3)", "(5)^(1/4)",
                                           "5c + 1of53", "2 x 81/80", "3^53 2^-84");
    CHECK(sectio::parse_size(text) == sectio::parse_interval(text));
}
