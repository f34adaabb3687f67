// Instrument files: what is read, and what is refused where.

#include <sectio/instrument/instrument.hpp>
#include <sectio/instrument/load_instrument.hpp>
#include <sectio/instrument/messages.hpp>

#include <support/errors.hpp>
#include <support/intervals.hpp>
#include <support/paths.hpp>

using namespace sectio;
using support::interval;

namespace {

Instrument read(const std::string& text) {
    return read_instrument_file(text, "zither.toml");
}

std::optional<Error> refusal(const std::string& text) {
    return support::error_of([&] { read(text); });
}

std::string told(const std::string& text) {
    const auto error = refusal(text);
    return support::name_of(error) + (error ? " " + error->place().text() : "");
}

const std::string head = "name = \"Z\"\n";
const std::string melody =
    head + "strings = [{ name = \"melody\", open = \"D4\", length = \"612 mm\" }]\n";

} // namespace

TEST_CASE("An instrument file is read with all its keys") {
    const Instrument zither = read(R"(name = "Z"
kind = "zither"
source = "S"
reference = "A4 = 415 Hz"
strings = [
  { name = "melody", open = "D4", length = "24 in", gauge = "0.3 mm", tension = "6 kg", modulus = "200 GPa" },
  { open = "D3", length = "78 cm ± 1 mm", fretted = false, unit_mass = "0.6 g/m", compensation = "2 mm" },
]
frets = ["57.4 mm ± 0.5 mm", { name = "second", nut = "112 mm", bridge = "497.6 mm" }]
compensation = "1.5 mm"
action = "2.0 mm"
remarks = ["R"]
)");
    CHECK(zither.kind == "zither");
    REQUIRE(zither.strings.size() == 2);
    CHECK(zither.strings[0].length.figure.text() == "609.6 mm");
    CHECK(zither.strings[0].open->at(support::pitch("415Hz"))
          == support::pitch("415Hz") - interval("7of12"));
    CHECK(*zither.strings[0].tension == parse_decimal("58.8399"));
    CHECK(zither.strings[1].name == "D3");
    CHECK_FALSE(zither.strings[1].fretted);
    CHECK(zither.strings[1].length.half_width->text() == "1 mm");
    CHECK(zither.strings[1].compensation->text() == "2 mm");
    REQUIRE(zither.frets.size() == 2);
    CHECK(zither.frets[0].from_nut.half_width->text() == "0.5 mm");
    CHECK(zither.frets[1].name == "second");
    CHECK(zither.frets[1].to_bridge->figure.text() == "497.6 mm");
    CHECK(zither.action->figure.text() == "2 mm");
    CHECK(zither.string().name == "melody");
    CHECK(zither.string("MELODY").name == "melody");
    CHECK(pressing_of(zither, zither.string()));
    CHECK_FALSE(pressing_of(zither, zither.strings[1]));
}

TEST_CASE("Mistakes in an instrument file are told with their place") {
    CHECK(told("strings = []") == "missing_key zither.toml:1:1");
    CHECK(told(head) == "missing_key zither.toml:1:1");
    CHECK(told(head + "strings = []") == "wrong_value_kind zither.toml:2:11");
    CHECK(told(head + "strings = [{ open = \"D4\" }]") == "missing_key zither.toml:2:12");
    CHECK(told(melody + "fret = []") == "unknown_key zither.toml:3:8");
    CHECK(told(head + "strings = [{ length = \"612 mm\", colour = \"red\" }]")
          == "unknown_key zither.toml:2:42");
    CHECK(told(melody + "frets = [\"57.4\"]") == "length_without_unit zither.toml:3:11");
    CHECK(told(melody + "frets = [\"-5 mm\"]") == "length_not_positive zither.toml:3:11");
    CHECK(told(melody + "frets = [57.4]") == "wrong_value_kind zither.toml:3:10");
    CHECK(told(melody + "frets = [{ bridge = \"5 mm\" }]") == "missing_key zither.toml:3:10");
    CHECK(told(head + "strings = [{ length = \"612 mm\", tension = \"60\" }]")
          == "expected_quantity zither.toml:2:44");
    CHECK(told(head + "strings = [{ length = \"612 mm\", fretted = 1 }]")
          == "wrong_value_kind zither.toml:2:43");
    CHECK(told("name = \" \"\n" + melody.substr(head.size()))
          == "instrument_unnamed zither.toml:1:9");
    CHECK(told(melody + "reference = \"loud\"").starts_with("expected_pitch"));
}

TEST_CASE("A scale file is no instrument file") {
    CHECK(looks_like_instrument_file(melody));
    CHECK(looks_like_instrument_file("[[strings]]\nlength = \"1 m\"\n"));
    CHECK_FALSE(looks_like_instrument_file("name = \"S\"\ndegrees = [\"3/2\"]\n"));
    CHECK_FALSE(looks_like_instrument_file("remarks = [\"strings = loud\"]"));
}

TEST_CASE("A string's measured frets are a scale on its open pitch") {
    const Instrument zither = read(melody + "frets = [\"68 mm\", \"204 mm ± 0.5 mm\"]");
    const Scale scale = scale_of(zither, zither.string());
    CHECK(*scale.tonic == "D4");
    CHECK_FALSE(scale.period);
    REQUIRE(scale.degrees.size() == 3);
    CHECK(scale.degrees[1].interval == interval("9/8"));
    CHECK(scale.degrees[1].name == "fret 1");
    CHECK(scale.degrees[2].uncertainty == interval("2.1217c"));
}

TEST_CASE("An instrument may name the scale of its frets") {
    const Instrument zither = read(melody + "frets = \"9/8, 5/4, 3/2\"");
    const Scale scale = played_scale(zither, Catalogue::installed());
    CHECK(*scale.tonic == "D4");
    CHECK(scale.period == Interval::octave());
    const Instrument bare = read(melody);
    CHECK(support::name_of(support::error_of([&] { played_scale(bare, Catalogue::installed()); }))
          == "instrument_without_frets");
    const Instrument wrong = read(melody + "frets = \"no such scale\"");
    const auto error = support::error_of([&] { played_scale(wrong, Catalogue::installed()); });
    CHECK(error->place().text() == "zither.toml:3:10");
}

TEST_CASE("The frets of an instrument file never make another file be read") {
    const support::TempDir dir;
    support::write_file(dir / "secret.toml", "name = \"secret\"\ndegrees = [\"7/4\"]");
    support::write_file(dir / "secret", "root:x:0:0\n");
    for (const std::string& frets :
         {(dir / "secret.toml").string(), (dir / "secret").string(), std::string("/etc/passwd"),
          std::string("/proc/self/environ"), std::string("-")}) {
        const Instrument zither = read(melody + "frets = \"" + frets + "\"");
        const auto error = support::error_of([&] { played_scale(zither, Catalogue::installed()); });
        INFO(frets);
        REQUIRE(error);
        CHECK(std::string(error->what()).find("root:") == std::string::npos);
        CHECK(error->place().source == "zither.toml");
        CHECK(error->place().line == 3);
    }
}

TEST_CASE("Strings are found by name, and the message names them") {
    const Instrument zither = read(melody);
    const auto error = support::error_of([&] { zither.string("drone"); });
    CHECK(support::name_of(error) == "unknown_string");
    CHECK(error->advice() == "write one of melody");
}

TEST_CASE("The examples are read, and say that they are invented") {
    for (const char* name : {"sundhall-zither-instrument", "sundhall-citole", "sundhall-cittern"}) {
        const auto instrument = load_instrument(
            (support::data_dir() / "examples" / (std::string(name) + ".toml")).string());
        INFO(name);
        REQUIRE(instrument);
        CHECK(instrument->source.find("nvented") != std::string::npos);
        CHECK_NOTHROW(played_scale(*instrument, Catalogue::installed()));
    }
}
