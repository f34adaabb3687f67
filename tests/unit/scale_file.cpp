// Scale files: what is read, and what every kind of mistake is told.

#include "support/errors.hpp"

#include <sectio/base/messages.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/scale/scale.hpp>

#include <catch2/catch.hpp>

#include <string>

using namespace sectio;

namespace {

Scale read(const std::string& toml) {
    return read_scale_file(toml, "s.toml");
}

struct Mistake {
    const char* toml;
    Message message;
    std::size_t line, column;
};

} // namespace

TEST_CASE("A scale file gives its degrees as written, the tonic first") {
    const Scale scale = read(R"(
name = "Three"
source = "here"
tonic = "D4"
reference = "A4 = 442 Hz"
degrees = [
  "9/8",
  { interval = "13of53", name = "third", note = "F" },
  { interval = "503.4c", uncertainty = "3c" },
]
)");
    REQUIRE(scale.degrees.size() == 4);
    CHECK(scale.degrees[0].interval.is_unison());
    CHECK(scale.degrees[1].written == "9/8");
    CHECK(scale.degrees[2].name == "third");
    CHECK(scale.degrees[2].note == "F");
    CHECK(scale.degrees[3].interval == Interval::from_cents(Rational(5034, 10)));
    CHECK(*scale.degrees[3].uncertainty == Interval::from_cents(Rational(3)));
    CHECK(scale.measured());
    CHECK(*scale.period == Interval::octave());
    CHECK(scale.tonic == "D4");
}

TEST_CASE("1/1 and the period may be written; they are no further degrees") {
    const Scale scale = read(R"(name = "x"
degrees = [{ interval = "1/1", name = "open" }, "3/2", { interval = "2/1", name = "octave" }])");
    REQUIRE(scale.degrees.size() == 2);
    CHECK(scale.degrees[0].name == "open");
    CHECK(scale.closing.name == "octave");
}

TEST_CASE("A set without period keeps degrees above the octave and below the tonic") {
    const Scale scale =
        read("name = \"x\"\nperiod = \"none\"\ndegrees = [\"3/4\", \"5/4\", \"5/2\"]");
    CHECK(!scale.period);
    REQUIRE(scale.degrees.size() == 4);
    CHECK(scale.degrees[0].interval == Interval::from_ratio(3, 4));
    CHECK(scale.degrees[1].interval.is_unison());
}

TEST_CASE("Measurements may come in any order where that is asked for") {
    const auto document = parse_toml("name = \"x\"\ndegrees = [\"5/2\", \"5/4\", \"5/4\"]", "s");
    CHECK(to_melody(read_scale_document(document)).notes.size() == 4); // 1/1 is understood
    CHECK(support::name_of(support::error_of([&] { to_scale(read_scale_document(document)); }))
          == "degree_outside_period");
}

TEST_CASE("Each mistake in a scale file is named with its line and column") {
    const Mistake mistakes[]{
        {"name = \"x\"\ndegrees = [\"3/x\"]", sectio::message::expected_denominator, 2, 15},
        {"name = \"x\"\ndegrees = [\"3/2\", \"5/0\"]", sectio::message::zero_term, 2, 22},
        {"name = \"x\"\ndegrees = [\n  \"3/2\",\n  \"5/4\"]", sectio::message::degrees_not_rising,
         4, 3},
        {"name = \"x\"\ndegrees = [\"5/2\"]", sectio::message::degree_outside_period, 2, 12},
        {"name = \"x\"\ndegrees = [\"4/5\"]", sectio::message::degree_outside_period, 2, 12},
        {"name = \"x\"\ndegrees = [\"5/4\", \"5/4\"]", sectio::message::degrees_not_rising, 2, 19},
        {"name = \"x\"\ndegrees = []", sectio::message::no_degrees, 2, 11},
        {"name = \"x\"", sectio::message::missing_key, 1, 1},
        {"degrees = [\"3/2\"]", sectio::message::missing_key, 1, 1},
        {"name = \"\"\ndegrees = [\"3/2\"]", sectio::message::empty_name, 1, 8},
        {"name = 7\ndegrees = [\"3/2\"]", sectio::message::wrong_value_kind, 1, 8},
        {"name = \"x\"\ndegrees = [1.5]", sectio::message::wrong_value_kind, 2, 12},
        {"name = \"x\"\ndegrees = \"3/2\"", sectio::message::wrong_value_kind, 2, 11},
        {"name = \"x\"\ncolour = \"red\"\ndegrees = [\"3/2\"]", sectio::message::unknown_key, 2,
         10},
        {"name = \"x\"\nperiod = \"1/2\"\ndegrees = [\"3/2\"]", sectio::message::period_not_rising,
         2, 11},
        {"name = \"x\"\ntonic = \"H4\"\ndegrees = [\"3/2\"]",
         sectio::message::note_of_another_language, 2, 10},
        {"name = \"x\"\nreference = \"A4\"\ndegrees = [\"3/2\"]",
         sectio::message::expected_reference, 2, 16},
        {"name = \"x\"\ndegrees = [{ interval = \"3/2\", uncertainty = \"0c\" }]",
         sectio::message::uncertainty_negative, 2, 47},
        {"name = \"x\"\ndegrees = [{ interval = \"3/2\", note = \"H\" }]",
         sectio::message::note_of_another_language, 2, 40},
        {"name = \"x\ndegrees", sectio::message::toml_syntax, 1, 10},
    };
    for (const Mistake& mistake : mistakes) {
        CAPTURE(mistake.toml);
        try {
            read(mistake.toml);
            FAIL("no error was raised");
        } catch (const Error& e) {
            CAPTURE(e.what());
            CHECK(e.id() == mistake.message);
            CHECK(e.code() == ErrorCode::unusable);
            CHECK(e.place().source == "s.toml");
            CHECK(e.place().line == mistake.line);
            CHECK(e.place().column == mistake.column);
            CHECK(!e.advice().empty());
        }
    }
}

TEST_CASE("Degrees in one argument count their columns in characters") {
    CHECK(parse_degrees("9/8, 5/4", "a").degrees.size() == 3);
    try {
        parse_degrees("12×9/8−2/1, 5/x", "a");
        FAIL("no error was raised");
    } catch (const Error& e) {
        CHECK(e.place().column == 15);
    }
}
