// What a table of TOML must hold, and what is said where it does not.

#include "support/errors.hpp"

#include <sectio/base/toml.hpp>

#include <catch2/catch.hpp>

using namespace sectio;

namespace {

template <typename Read>
std::optional<Error> refusal(const std::string& text, Read read) {
    const TomlValue document = parse_toml(text, "f.toml");
    const TomlReader reader(document);
    return support::error_of([&] { read(reader); });
}

} // namespace

TEST_CASE("A count is a whole number from 1 to a milliard") {
    const auto count = [](const std::string& value) {
        const TomlValue document = parse_toml("steps = " + value + "\n", "f.toml");
        return TomlReader(document).optional_count("steps");
    };
    CHECK(count("1") == 1);
    CHECK(count("1_000_000_000") == 1'000'000'000);
    const auto read = [](const TomlReader& r) { r.optional_count("steps"); };
    for (const char* value : {"0", "-1", "1_000_000_001", "2.0", "\"5\"", "true"}) {
        const auto error = refusal(std::string("\nsteps = ") + value + "\n", read);
        CAPTURE(value);
        CHECK(support::name_of(error) == "wrong_value_kind");
        CHECK(error->place().text() == "f.toml:2:9");
    }
    CHECK_FALSE(TomlReader(parse_toml("a = 1\n", "f.toml")).optional_count("steps"));
}

TEST_CASE("Texts, lists and tables are what they are called") {
    const auto text = [](const TomlReader& r) { r.required_text("name"); };
    CHECK(support::name_of(refusal("other = 1\n", text)) == "missing_key");
    CHECK(support::name_of(refusal("name = 1\n", text)) == "wrong_value_kind");
    const auto texts = [](const TomlReader& r) { r.texts("also"); };
    CHECK(support::name_of(refusal("also = \"a\"\n", texts)) == "wrong_value_kind");
    const auto mixed = refusal("also = [\"a\", 2]\n", texts);
    CHECK(support::name_of(mixed) == "wrong_value_kind");
    CHECK(mixed->place().text() == "f.toml:1:14");
    const auto tables = [](const TomlReader& r) { r.tables("string", "[[string]]"); };
    CHECK(support::name_of(refusal("string = 3\n", tables)) == "wrong_value_kind");
    CHECK(support::name_of(refusal("string = [{}, 3]\n", tables)) == "wrong_value_kind");
    CHECK(support::name_of(refusal("[[string]]\na = 1\n", tables)) == "no error");
    const auto list = [](const TomlReader& r) { r.required_list("degrees", "degrees = [1]"); };
    CHECK(support::name_of(refusal("", list)) == "missing_key");
    CHECK(support::name_of(refusal("degrees = 1\n", list)) == "wrong_value_kind");
    const auto yes = [](const TomlReader& r) { r.yes("exact"); };
    CHECK(support::name_of(refusal("exact = 1\n", yes)) == "wrong_value_kind");
    CHECK_FALSE(TomlReader(parse_toml("exact = false\n", "f.toml")).yes("exact"));
    CHECK_FALSE(TomlReader(parse_toml("other = true\n", "f.toml")).yes("exact"));
    CHECK(TomlReader(parse_toml("exact = true\n", "f.toml")).yes("exact"));
}

TEST_CASE("A key is known by its whole name alone") {
    const auto only = [](const TomlReader& r) { r.allow_only("name, tonic, period"); };
    CHECK(support::name_of(refusal("name = 1\nperiod = 2\n", only)) == "no error");
    for (const char* key : {"names", "ame", "tonic2", "peri", "\"name, tonic\""}) {
        const auto error = refusal(std::string("name = 1\n") + key + " = 1\n", only);
        CAPTURE(key);
        CHECK(support::name_of(error) == "unknown_key");
        CHECK(error->place().line == 2);
    }
}
