// Lists and tables of measured pitches.

#include "support/errors.hpp"
#include "support/intervals.hpp"
#include "support/paths.hpp"

#include <sectio/base/limits.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/scale/reading.hpp>

#include <catch2/catch.hpp>

#include <sstream>

using namespace sectio;
using support::interval;

namespace {

std::string failure(const std::string& text) {
    return support::name_of(support::error_of([&] { parse_pitches(text, {"SCALE"}); }));
}

Melody table(const std::string& text) {
    return read_table(text, "t.csv");
}

std::string table_failure(const std::string& text) {
    return support::name_of(support::error_of([&] { table(text); }));
}

} // namespace

TEST_CASE("Intervals keep their value and take an uncertainty") {
    for (const char* text :
         {"203±3c, 5/4, 498.5c", "203c±3c; 5/4; 498.5c", "203 +- 3c,5/4,498.5c"}) {
        const Melody melody = to_melody(parse_pitches(text));
        REQUIRE(melody.notes.size() == 4); // 1/1 is understood
        CHECK(melody.notes[0].interval.is_unison());
        CHECK(melody.notes[1].interval == interval("203c"));
        CHECK(melody.notes[1].uncertainty == interval("3c"));
        CHECK(melody.notes[2].interval == interval("5/4"));
        CHECK_FALSE(melody.notes[2].uncertainty);
    }
}

TEST_CASE("Pitches become intervals above the first") {
    const Melody melody = to_melody(parse_pitches("440Hz, 495±0.5 Hz, 660Hz"));
    REQUIRE(melody.notes.size() == 3);
    CHECK(melody.notes[1].interval == interval("9/8"));
    CHECK(melody.notes[1].uncertainty == Interval::from_ratio(991, 990)); // 495.5 / 495
    CHECK(melody.notes[2].interval == interval("3/2"));
    CHECK(to_melody(parse_pitches("D4, A4, F#4-14c")).notes[1].interval == interval("7of12"));
    CHECK(to_melody(parse_pitches("D4 A4 F#4 -14c")).notes[1].interval == interval("7of12"));
    CHECK(to_melody(parse_pitches("D4, A4, B♭3")).notes[2].interval == interval("-4of12"));
}

TEST_CASE("Cents after a blank belong to their note, whatever minus they have") {
    for (const char* signed_cents : {"D4 E4 -29c F4", "D4 E4 −29c F4", "D4 E4 –29c F4"}) {
        CAPTURE(signed_cents);
        CHECK(parse_pitches(signed_cents).pitches.size() == 3);
    }
}

TEST_CASE("What is no list of pitches is refused with its place") {
    CHECK(failure("") == "no_pitches");
    CHECK(failure(" , ,") == "no_pitches");
    CHECK(failure("440Hz, 3/2") == "pitches_mixed");
    for (const char* german : {"H4", "Fis4, A4", "D4, H4", "D4, Re5", "as3±2c"})
        CHECK(failure(german) == "note_of_another_language");
    for (const char* notes : {"D, E, F#", "D4, E, F4", "E, D4", "D4 E F#4"})
        CHECK(failure(notes) == "missing_octave");
    for (const char* bare : {"D4, E4-29", "D4 E4-29", "D4 E4 -29", "E4 -29ct F4", "D4 E4+5.5"})
        CHECK(failure(bare) == "cents_need_unit");
    CHECK(failure("E4 -29/4") == "expected_pitch");
    CHECK(failure("harmony4") == "unknown_interval_name");
    CHECK(failure("203±") == "expected_uncertainty");
    CHECK(failure("203±3") == "expected_uncertainty");
    CHECK(failure("203±-3c") == "uncertainty_negative");
    CHECK(failure("203c±0c") == "uncertainty_negative");
    CHECK(failure("203.4") == "decimal_without_cents");
    CHECK(failure("0Hz, 440Hz") == "frequency_not_positive");
    const auto error = support::error_of([] { parse_pitches("3/2, ♪", {"SCALE"}); });
    REQUIRE(error);
    CHECK(error->place().text() == "SCALE:6");
}

TEST_CASE("Tables are read with and without a header, whatever stands between cells") {
    for (const char* text :
         {"cents,weight\n0,2\n203.5,1\n", "0;2\n203.5;1\n", "weight\tcents\n2\t0\n1\t203.5\n",
          "\xEF\xBB\xBF\"Cents\",\"Weight\"\r\n\"0\",\"2\"\r\n203.5c,1\r\n"}) {
        CAPTURE(text);
        const Melody melody = table(text);
        REQUIRE(melody.notes.size() == 2);
        CHECK(melody.notes[0].weight == Rational(2));
        CHECK(melody.notes[1].interval == interval("203.5c"));
        CHECK_FALSE(melody.in_time);
        CHECK(melody.zero == MelodyZero::free);
    }
}

TEST_CASE("Columns say what their numbers are") {
    CHECK(table("hz\n440\n660\n").notes[1].interval == interval("3/2"));
    CHECK(table("commas\n9\n").notes[0].interval == interval("9of53"));
    CHECK(table("ratio,count\n9/8,3\n").notes[0].interval == interval("9/8"));
    CHECK(table("cents,uncertainty\n203,4\n").notes[0].uncertainty == interval("4c"));
    const Melody named = table("pitch,duration\nD4,1\nA4,0.5\n");
    CHECK(named.notes[0].interval == interval("2of12"));
}

// Written commas count from C-1, so that C4 is 265 and A4, Dügâh, 305; the comma as written goes
// before the comma as practised.
TEST_CASE("A table of notes in time keeps order, rests and durations") {
    const Melody melody = table("index\tpractised_commas\twritten_commas\tduration\n"
                                "1\t304\t305\t1/4\n2\t-1\t-1\t1/8\n3\t313\t313\t0\n"
                                "4\t318\t318\t3/8\n");
    REQUIRE(melody.notes.size() == 2);
    CHECK(melody.in_time);
    CHECK(melody.zero == MelodyZero::written);
    CHECK(melody.notes[0].interval == interval("40of53"));
    CHECK(melody.notes[0].ends_phrase);
    CHECK(melody.notes[1].weight == Rational(3, 8));
    const Melody sorted = table("onset,cents\n2,100\n1,0\n");
    CHECK(sorted.notes.front().interval.is_unison());
}

TEST_CASE("A tuner's table joins the note and how far off it is") {
    for (const char* text : {"note,cents\nC4,3\nD4,-12\n", "note;cents\nC4;+3\nD4;-12\n",
                             "note,deviation\nC4,3\nD4,\u221212\n",
                             "label;note;deviation_cents\nlow;C4;+3,0\nhigh;D4;-12,0\n"}) {
        CAPTURE(text);
        const Melody melody = table(text);
        REQUIRE(melody.notes.size() == 2);
        CHECK(melody.notes[1].interval - melody.notes[0].interval == interval("185c"));
        CHECK(*melody.sounding_zero + melody.notes[0].interval
              == sectio::pitch_of_key(60) + interval("3c"));
        CHECK(melody.zero == MelodyZero::free);
    }
    // A sheet's own table has both: there the cents are the positions.
    CHECK(table("note,cents,deviation_cents\nD4,0,0\nE4,204,4\n").notes[1].interval
          == interval("204c"));
    CHECK(table("note,hz,deviation\nD4,440,4\nE4,660,4\n").notes[1].interval == interval("3/2"));
    CHECK(table_failure("note,cents\nC4,flat\n") == "table_not_number");
    CHECK(table_failure("note,cents\nC,3\n") == "missing_octave");
}

TEST_CASE("A comma is the decimal sign only where it does not separate the cells") {
    CHECK(table("cents;weight\n203,9;1\n").notes[0].interval == interval("203.9c"));
    CHECK(table("hz\tweight\n262,1\t1\n524,2\t2\n").notes[1].interval == interval("2/1"));
    CHECK(table_failure("cents\n203,9\n") == "table_row_long");
    CHECK(table_failure("hz\n262,1\n") == "table_row_long");
    CHECK(table_failure("203,9,1\n386,3,1\n") == "table_row_long");
    CHECK(table_failure("cents;weight\n2,0,3;1\n") == "decimal_comma");
    const auto error = support::error_of([] { table("cents\n0\n203,9\n"); });
    CHECK(error->place().text() == "t.csv:3:5");
}

TEST_CASE("Remarks and quotes do not decide what separates the cells") {
    for (const char* text : {"# 3 May; by hand\ncents,weight\n203.5,2\n",
                             "\n# a;b\tc\n\"cents; above the drone\",weight,cents\nx,2,203.5\n"}) {
        CAPTURE(text);
        const Melody melody = table(text);
        REQUIRE(melody.notes.size() == 1);
        CHECK(melody.notes[0].interval == interval("203.5c"));
        CHECK(melody.notes[0].weight == Rational(2));
    }
    // Were the remark behind the mark a line of the table, the comma would be a decimal sign.
    for (const char* text : {"# 3 May; by hand\ncents\n\"203,5\"\n",
                             "\xEF\xBB\xBF# 3 May; by hand\ncents\n\"203,5\"\n"})
        CHECK(table_failure(text) == "decimal_comma");
}

TEST_CASE("Frequencies one each moment are a melody, silence ends a phrase") {
    std::string text = "hz\n";
    for (int i = 0; i < 600; ++i)
        text += i % 100 == 99 ? "0\n" : i < 300 ? "440\n" : "660\n";
    const Melody track = table(text.c_str());
    CHECK(track.in_time);
    CHECK(track.notes.size() == 594);
    CHECK(track.notes[98].ends_phrase);
    CHECK_FALSE(track.notes[97].ends_phrase);
    CHECK_FALSE(table("hz\n440\n0\n660\n").in_time);
}

TEST_CASE("A byte order mark before a document of any kind is not seen") {
    for (const std::string text :
         {"1/1, 9/8, 3/2", "cents\n0\n203.91\n701.955\n",
          "name = \"n\"\ndegrees = [\"1/1\", \"9/8\", \"3/2\"]\n",
          R"({"degrees": [{"interval": "1/1"}, {"interval": "9/8"}, {"interval": "3/2"}]})"}) {
        CAPTURE(text);
        const PitchList plain = read_pitches(text, "f");
        const PitchList marked = read_pitches("\xEF\xBB\xBF" + text, "f");
        REQUIRE(plain.pitches.size() == 3);
        REQUIRE(marked.pitches.size() == 3);
        CHECK(marked.pitches[2].above.figure == plain.pitches[2].above.figure);
    }
}

TEST_CASE("The last note of a table ends a phrase") {
    const Melody melody = table("hz\n440\n660\n550\n");
    REQUIRE(melody.notes.size() == 3);
    CHECK_FALSE(melody.notes[1].ends_phrase);
    CHECK(melody.notes[2].ends_phrase);
}

TEST_CASE("What is no table of pitches is refused with line and column") {
    CHECK(table_failure("") == "no_pitches");
    CHECK(table_failure("colour,size\nred,3\n") == "table_no_pitch_column");
    CHECK(table_failure("cents,weight\n203\n") == "table_row_short");
    CHECK(table_failure("cents,weight\n203,much\n") == "table_not_number");
    CHECK(table_failure("cents,weight\n203,-1\n") == "weight_not_positive");
    CHECK(table_failure("cents,label\n203,h\xF6her\n") == "not_utf8"); // "höher" in Latin-1
    const auto error = support::error_of([] { table("cents,weight\n0,1\n203,much\n"); });
    CHECK(error->place().text() == "t.csv:3:5");
}

TEST_CASE("Scales, files, tables and lists all make a melody") {
    std::istringstream none;
    const support::TempDir dir;
    support::write_file(dir / "a.toml",
                        "name = \"a\"\nperiod = \"none\"\ndegrees = [\"3/2\", \"5/4\"]");
    support::write_file(dir / "a.csv", "cents\n0\n200\n");
    const Catalogue& catalogue = Catalogue::installed();
    CHECK(load_melody((dir / "a.toml").string(), catalogue, none).notes.size() == 3);
    CHECK(load_melody((dir / "a.csv").string(), catalogue, none).notes.size() == 2);
    CHECK(load_melody("rast", catalogue, none).notes.size() == 7);
    CHECK(load_melody("3/2,5/4", catalogue, none).notes.size() == 3);
    std::istringstream input("cents\n0\n200\n400\n");
    CHECK(load_melody("-", catalogue, input).notes.size() == 3);
    CHECK(support::name_of(
              support::error_of([&] { load_melody((dir / "none.csv").string(), catalogue, none); }))
          == "cannot_read");
}

TEST_CASE("What is written keeps its unit without its uncertainty") {
    CHECK(parse_pitches("203±3c, 5/4").pitches[0].written == "203c");
    CHECK(parse_pitches("440 ± 0.5 Hz, 660Hz").pitches[0].written == "440Hz");
    CHECK(to_scale(parse_pitches("440 ± 0.5 Hz, 660Hz")).tonic == "440Hz");
}

TEST_CASE("A bare number is no uncertainty") {
    const auto name = [](std::string_view text) {
        return support::name_of(support::error_of([&] { parse_uncertainty(text); }));
    };
    CHECK(name("3") == "size_needs_unit");
    CHECK(name("2.5") == "decimal_without_cents");
    CHECK(name("-3c") == "uncertainty_negative");
    CHECK(parse_uncertainty("3c") == interval("3c"));
    CHECK(parse_uncertainty("81/80") == interval("81/80"));
    CHECK(support::name_of(support::error_of([] {
              read_scale_file("name = 'x'\ndegrees = [{ interval = '3/2', uncertainty = '3' }]",
                              "x.toml");
          }))
          == "size_needs_unit");
}

TEST_CASE("What commands printed reads back") {
    const std::string sheet = R"({"name": "two", "tonic": "D4", "reference_hz": "415.000",
        "degrees": [{"interval": "1/1", "written": "1/1", "name": "low"},
                    {"interval": "203.4c", "written": "203.4c", "uncertainty_cents": "3"}],
        "period": {"interval": "2/1"}})";
    const Scale scale = to_scale(read_json(sheet, "s.json"));
    CHECK(scale.tonic == "D4");
    CHECK(scale.reference == "A4 = 415.000 Hz");
    CHECK(scale.degrees[0].name == "low");
    CHECK(scale.degrees[1].interval == interval("203.4c"));
    CHECK(scale.degrees[1].uncertainty == interval("3c"));
    CHECK(scale.period == interval("2/1"));
    const PitchList measured = read_json(
        R"({"pitches": [{"label": "a", "hz": "440.000", "uncertainty_cents": "2"},
                        {"label": "b", "hz": "660.000"}]})",
        "m.json");
    CHECK(measured.pitches[1].above.figure == interval("3/2"));
    CHECK(to_scale(measured).degrees[1].uncertainty == interval("2c")); // of the tonic
    const auto name = [](const char* json) {
        return support::name_of(support::error_of([&] { read_json(json, "x.json"); }));
    };
    CHECK(name("{\"degrees\": [") == "json_syntax");
    CHECK(name("{}") == "no_pitches");
    CHECK(name("{\"degrees\": [1]}") == "empty_expression");
}

TEST_CASE("What is wrong in JSON is said, and where, in a list too") {
    const auto said = [](const char* json) {
        const auto error = support::error_of([&] { read_pitches(json, "x.json"); });
        return error ? error->place().text() + " " + error->message() : "";
    };
    CHECK(said("[1,2")
          == "x.json:1:5 this is not valid JSON: unexpected end of input; expected ']'");
    CHECK(said("{\"name\": \"ü\",\n \"degrees\" []}")
          == "x.json:2:12 this is not valid JSON: unexpected '['; expected ':'");
    CHECK(said("{\"name\": nul}") == "x.json:1:13 this is not valid JSON: invalid literal");
    CHECK(said("[1e999]") == "x.json this is not valid JSON: a number is too large");
    CHECK(said("[1,2]") == "x.json there is no pitch here");
}

TEST_CASE("A tonic that is asked for is the listed pitch, at its frequency") {
    std::istringstream none;
    const LoadedScale loaded =
        load_scale_argument("440Hz, 295Hz, 330.5Hz", {Catalogue::installed(), none});
    const TunedScale on_d = tuned(loaded, {"D4", std::nullopt});
    CHECK(on_d.tonic().pitch == parse_pitch("295Hz"));
    CHECK(on_d.scale().degrees[2].interval == interval("440/295"));
    CHECK(tuned(loaded, {}).tonic().pitch == parse_pitch("295Hz"));
    CHECK(tuned(loaded, {"A4", std::nullopt}).scale().degrees.size() == 3);
    CHECK(support::name_of(support::error_of([&] {
              tuned(loaded, {"F4", std::nullopt});
          }))
          == "tonic_not_listed");
}

TEST_CASE("What is no scale is told what the catalogue would find") {
    std::istringstream none;
    const auto advice = [&](const char* text) {
        const auto error = support::error_of([&] {
            load_scale_argument(text, {Catalogue::installed(), none});
        });
        return error ? error->message() : "";
    };
    CHECK(advice("bagpipe").find("did you mean") != std::string::npos);
    CHECK(advice("huseynni").find("did you mean huseyni") != std::string::npos);
    CHECK(advice("xyzzy").find("did you mean") == std::string::npos);
}

TEST_CASE("Steps in words, a tonic before a name and a lone pitch are told how they are written") {
    const auto trouble = [](const char* text) {
        return support::error_of([&] { load_named_scale(text, Catalogue::installed(), {}); });
    };
    for (const char* text : {"53edo", "53-TET", "53 equal steps", "53 ET"}) {
        CAPTURE(text);
        CHECK(support::name_of(trouble(text)) == "steps_in_words");
        CHECK(trouble(text)->advice() == "write 53");
    }
    CHECK(support::name_of(trouble("D dorian")) == "tonic_before_name");
    CHECK(trouble("F# rast")->advice() == "write rast, and the tonic by itself: F#4 after --tonic");
    CHECK(support::name_of(trouble("D4")) == "pitch_is_no_scale");
    CHECK(support::name_of(trouble("D4, E4, F#4")) == "no error");
    CHECK(trouble("minor")->message().find("did you mean harmonic-minor") != std::string::npos);
}

TEST_CASE("A head is no pitch of a table as long as any may be") {
    const auto table = [](const std::string& head, std::size_t pitches) {
        std::string text = head;
        for (std::size_t i = 0; i < pitches; ++i)
            text += std::to_string(i % 1200) + "\n";
        return support::name_of(support::error_of([&] { read_pitch_table(text, "t.csv"); }));
    };
    CHECK(table("cents\n", limits::identified_pitches) == "no error");
    CHECK(table("cents\n", limits::identified_pitches + 1) == "too_many_pitches");
}
