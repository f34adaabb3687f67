// What an argument is: the one door by which all that a user names comes in.

#include <sectio/base/messages.hpp>
#include <sectio/source/file_kind.hpp>
#include <sectio/source/messages.hpp>
#include <sectio/source/source.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

#include <sstream>

using namespace sectio;
using namespace sectio::source;

namespace {

std::string kind(const std::string& text, const std::string& input = "") {
    std::istringstream stream(input);
    return std::string(kind_of(open(text, Catalogue::installed(), stream)));
}

std::string example(const std::string& name) {
    return (support::data_dir() / "examples" / name).string();
}

} // namespace

TEST_CASE("Every kind of argument is known by what it holds") {
    const support::TempDir folder;
    const auto file = [&](const std::string& name, const std::string& bytes) {
        support::write_file(folder / name, bytes);
        return (folder / name).string();
    };
    CHECK(kind("rast") == "a scale");
    CHECK(kind("Werckmeister III") == "a scale");
    CHECK(kind("9/8,5/4,3/2") == "a list of pitches");
    CHECK(kind("440Hz, 495Hz") == "a list of pitches");
    CHECK(kind(example("sundhall-zither.toml")) == "a list of pitches");
    CHECK(kind(example("sundhall-zither-instrument.toml")) == "an instrument");
    CHECK(kind(example("goose-walk.musicxml")) == "a score");
    CHECK(kind(folder.path().string()) == "a folder");
    CHECK(kind(file("tune.anything", support::read_file(example("goose-walk.musicxml"))))
          == "a score");
    CHECK(kind(file("tuning.syx", "\xF0\x7E\xF7")) == "a file of tuning messages");
    CHECK(kind(file("tune.mid", {"MThd\0\0\0\6\0\0\0\1\0\x60MTrk\0\0\0\4\0\xFF\x2F\0", 26}))
          == "a MIDI file");
    CHECK(kind(file("pitches.csv", "cents\n0\n204\n")) == "a list of pitches");
}

TEST_CASE("Standard input may hold any text or score") {
    CHECK(kind("-", "9/8,5/4") == "a list of pitches");
    CHECK(kind("-", support::read_file(example("goose-walk.musicxml"))) == "a score");
    CHECK(kind("-", support::read_file(example("sundhall-zither-instrument.toml")))
          == "an instrument");
}

TEST_CASE("A scale is refused where something else is given, by its kind") {
    std::istringstream nothing;
    const Source score = open(example("goose-walk.musicxml"), Catalogue::installed(), nothing);
    const auto e = support::error_of([&] { scale_in(score); });
    REQUIRE(e);
    CHECK(e->id() == message::not_a_scale_but);
    CHECK(e->message() == "a scale is needed, and this is a score");
}

TEST_CASE("A score is refused where its first bytes are another kind's") {
    const std::pair<const char*, const char*> others[]{
        {"MThd", "a.musicxml"}, {"RIFF", "a"}, {"", "a.mid"}, {"\xF0\x7E", "a"}};
    for (const auto& other : others) {
        const auto e = support::error_of([&] { check_score(other.first, other.second); });
        REQUIRE(e);
        CHECK(e->id() == message::not_a_score_but);
        CHECK(e->place().source == other.second);
    }
    CHECK_NOTHROW(check_score("<?xml", "tune.mid"));
    CHECK_NOTHROW(check_score("words", "tune")); // the reader of scores says what is wrong
}

TEST_CASE("A file is known by its first bytes before its ending") {
    CHECK(file_kind("RIFF....WAVE", "a.txt") == FileKind::recording);
    CHECK(file_kind("\xFF\xFE<\0", "a") == FileKind::score);
    CHECK(file_kind("  <?xml", "a.wav") == FileKind::score);
    CHECK(file_kind("", "A.WAV") == FileKind::recording);
    CHECK(file_kind("name = 1", "a.toml") == FileKind::text);
    CHECK(file_kind("MThd", "a.toml") == FileKind::midi);
}

TEST_CASE("Sound and pictures of other kinds are not said to be texts in a wrong encoding") {
    using namespace std::string_view_literals;
    const support::TempDir folder;
    const auto trouble = [&](const std::string& name, std::string_view bytes) {
        support::write_file(folder / name, std::string(bytes));
        return support::name_of(support::error_of([&] { kind((folder / name).string()); }));
    };
    CHECK(trouble("memo.m4a", "\0\0\0\x20"
                              "ftypM4A \0\0"sv)
          == "no_sound_file");
    CHECK(trouble("memo.webm", "\x1A\x45\xDF\xA3\0"sv) == "no_sound_file");
    CHECK(trouble("a.png", "\x89PNG\r\n\x1A\n\0\0"sv) == "not_read_here");
    CHECK(trouble("sheet.pdf", "%PDF-1.7\n%\0\0"sv) == "not_read_here");
    CHECK(trouble("a.bin", "\1\0\0"sv) == "not_a_text");
    CHECK(trouble("a.csv", "\xFF\xFE"sv) != "not_a_text"); // UTF-16 has zeros
}

TEST_CASE("A file of another kind is named, not read as what is wanted") {
    using namespace std::string_view_literals;
    const auto trouble = [](auto check, std::string_view head, const char* name) {
        return support::error_of([&] { check(head, name); });
    };
    const auto png = trouble(source::check_recording, "\x89PNG\r\n"sv, "a.wav");
    CHECK(support::name_of(png) == "not_a_recording_but");
    CHECK(png->message() == "a recording is needed, and this is a picture");
    CHECK(support::name_of(trouble(source::check_recording, "MThd"sv, "a.wav"))
          == "not_a_recording_but");
    CHECK(support::name_of(trouble(source::check_recording, "RIFF"sv, "a.wav")) == "no error");
    CHECK(support::name_of(trouble(source::check_score, "%PDF-1.4"sv, "a.xml"))
          == "not_a_score_but");
    CHECK(support::name_of(trouble(source::check_table, "RIFF"sv, "a.csv")) == "not_a_table_but");
    CHECK(support::name_of(trouble(source::check_table, "note,hz"sv, "a.csv")) == "no error");
}
