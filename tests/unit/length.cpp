// Lengths as rulers give them, exact in millimetres.

#include <sectio/base/length.hpp>
#include <sectio/base/messages.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>

using namespace sectio;

namespace {

Rational mm(std::string_view text) {
    return parse_length(text).millimetres();
}

std::string said(std::string_view text) {
    const auto error = support::error_of([&] { parse_measured_length(text, {"--length", 0, 1}); });
    return error ? std::string(error->id()->name) + " " + error->place().text() : "read";
}

} // namespace

TEST_CASE("A length is exact in every unit") {
    CHECK(mm("612 mm") == Rational(612));
    CHECK(mm("612mm") == Rational(612));
    CHECK(mm("61.2 cm") == Rational(612));
    CHECK(mm("0.612 m") == Rational(612));
    CHECK(mm("24.5 in") == Rational(6223, 10));
    CHECK(mm("24 1/2 inch") == Rational(6223, 10));
    CHECK(mm("24-1/2\"") == Rational(6223, 10));
    CHECK(mm("24 1/2″") == Rational(6223, 10));
    CHECK(mm("24 1/2”") == Rational(6223, 10));
    CHECK(mm("3/8\"") == Rational(381, 40));
    CHECK(mm("2 inches") == Rational(254, 5));
    CHECK(mm("-1.5 mm") == Rational(-3, 2));
    CHECK(mm("−1/2 mm") == Rational(-1, 2));
    CHECK(mm("−2 1/2 mm") == Rational(-5, 2));
}

TEST_CASE("A measured length has a half width in its own unit or another") {
    const MeasuredLength both = parse_measured_length("57.4 mm ± 0.5 mm");
    CHECK(both.figure == Length::millimetres(Rational(287, 5)));
    CHECK(*both.half_width == Length::millimetres(Rational(1, 2)));
    CHECK(both.basis == Basis::ruler);
    CHECK(parse_measured_length("57.4 ± 0.5 mm") == both);
    CHECK(parse_measured_length("57.4±0.5mm") == both);
    CHECK(parse_measured_length("5.74 cm +- 0.5 mm") == both);
    CHECK(parse_measured_length("5.74 cm +/- 1/2 mm") == both);
    CHECK(parse_measured_length("57.4 mm").exact());
    CHECK(*parse_measured_length("3/8\" ± 1/64\"").half_width == Length::inches(Rational(1, 64)));
}

TEST_CASE("What is no length is said with its place") {
    CHECK(said("612") == "length_without_unit --length:1");
    CHECK(said("612 ± 1") == "length_without_unit --length:7");
    CHECK(said("57.4 mm ± 0.5") == "length_without_unit --length:11");
    CHECK(said("57,4 mm") == "length_decimal_comma --length:1");
    CHECK(said("57.4 ft") == "unknown_length_unit --length:6");
    CHECK(said("mm") == "expected_length --length:1");
    CHECK(said("") == "expected_length --length:1");
    CHECK(said("3/0 mm") == "expected_length --length:3");
    CHECK(said("3 mm up") == "text_after_length --length:6");
    CHECK(said("3 mm ± 0 mm") == "half_width_not_positive --length:8");
    CHECK(said(std::string(101, '1')) == "length_too_long --length:1");
    const auto error = support::error_of([] { parse_length("620"); });
    CHECK(error->advice() == "write 620mm, 620cm or 620in");
}

TEST_CASE("Lengths are compared, added and written without loss") {
    const Length inch = Length::inches(1);
    CHECK(inch.decimal(1) == "25.4");
    CHECK(inch.text() == "25.4 mm");
    CHECK((inch * Rational(1, 3)).text() == "127/15 mm");
    CHECK(parse_length((inch * Rational(1, 3)).text()) == inch * Rational(1, 3));
    CHECK(inch + inch > inch);
    CHECK(inch - inch == Length());
    CHECK(-inch < Length());
    CHECK(inch / Length::millimetres(Rational(127, 10)) == Rational(2));
}
