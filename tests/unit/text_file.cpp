// Text as other programs save it: UTF-16 with its mark, and lines that end with carriage returns.

#include <sectio/base/text_file.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>

#include <sstream>

using sectio::plain_text;

namespace {

std::string bytes(std::string_view text) {
    return std::string(text);
}

std::string told(std::string_view text) {
    return support::name_of(support::error_of([&] { plain_text(bytes(text), "t.csv"); }));
}

} // namespace

TEST_CASE("Text is UTF-8 without a mark, whatever it was saved as") {
    using namespace std::string_view_literals;
    // U+10302 is D800 DF02 in UTF-16 and F0 90 8C 82 in UTF-8: The Unicode Standard 15.0, table 3-4
    // (from memory). é is U+00E9, ♯ U+266F.
    CHECK(plain_text(bytes("\xFF\xFE"
                           "a\0\xE9\0\x6F\x26\0\xD8\x02\xDF"sv),
                     "")
          == "aé♯\xF0\x90\x8C\x82");
    CHECK(plain_text(bytes("\xFE\xFF"
                           "\0a\0\xE9\x26\x6F\xD8\0\xDF\x02"sv),
                     "")
          == "aé♯\xF0\x90\x8C\x82");
    CHECK(plain_text("\xEF\xBB\xBF"
                     "a\n",
                     "")
          == "a\n");
    CHECK(plain_text("", "").empty());
    CHECK(plain_text(bytes("\xFF\xFE"sv), "").empty());
    CHECK(told("\xFF\xFE"
               "a"sv)
          == "not_utf8"); // half a unit
    for (const auto text : {"\xFF\xFE\0\xD8"sv,
                            "\xFF\xFE\0\xD8"
                            "a\0"sv,
                            "\xFF\xFE\x02\xDF"sv})
        CHECK(told(text) == "not_utf8");   // half a pair
    CHECK(told("a\0b\0"sv) == "not_utf8"); // UTF-16 without its mark
    CHECK(told("\xFF\xFE\0\0"
               "a\0\0\0"sv)
          == "not_utf8"); // UTF-32
}

TEST_CASE("Carriage returns end lines where nothing else does") {
    CHECK(plain_text("a\rb\r", "") == "a\nb\n");
    CHECK(plain_text("a\r\nb\r\n", "") == "a\r\nb\r\n");
    CHECK(plain_text("\"a\rb\"\nc", "") == "\"a\rb\"\nc");
}

TEST_CASE("A stream is read to its end once") {
    std::istringstream input("3/2");
    CHECK(sectio::read_text(input, "standard input", 10) == "3/2");
    CHECK(
        support::name_of(support::error_of([&] { sectio::read_text(input, "standard input", 10); }))
        == "standard_input_again");
}
