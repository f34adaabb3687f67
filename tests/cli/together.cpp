// Many files of one command: where they are written, and that threads change nothing. All tunes and
// sounds are invented.

#include "support/json.hpp"
#include "support/paths.hpp"
#include "support/process.hpp"
#include "support/tones.hpp"

#include <sectio/base/limits.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <filesystem>

using support::Outcome;
using support::run_sectio;
using Json = nlohmann::ordered_json;

namespace {

std::string notes(const std::vector<double>& cents) {
    std::vector<std::vector<float>> parts;
    for (const double c : cents)
        parts.push_back(
            support::tone({.hz = 220 * std::exp2(c / 1200), .rate = 22050, .noise_db = 50}));
    return support::wave_file(support::joined(parts), 22050);
}

void fill(const std::filesystem::path& folder) {
    std::filesystem::create_directories(folder / "more");
    support::write_file(folder / "scale.wav", notes({0, 204, 386, 498, 702}));
    support::write_file(folder / "more/note.wav", notes({702}));
    support::write_file(folder / "broken.wav", "no sound");
    support::write_file(folder / "read.txt", "neither");
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("Every recording of a folder is measured as it is alone, whatever the threads") {
    const support::TempDir folder;
    fill(folder / "sounds");
    const std::string sounds = (folder / "sounds").string();
    const auto lines = [&](const char* threads) {
        return run_sectio(
            {"measure", "recording", sounds, "--each", "--json-lines", "--threads", threads});
    };
    const Outcome one = lines("1"), three = lines("3");
    CHECK(one.out == three.out);
    CHECK(one.err == three.err);
    CHECK(one.exit_code == 2);
    CHECK(has(one.err, "broken.wav"));
    const auto documents = support::lines_of(one.out);
    REQUIRE(documents.size() == 2); // in the order of their paths
    for (const std::string& line : documents) {
        Json document = Json::parse(line);
        const std::string file = document["file"];
        document.erase("file");
        const Outcome alone = run_sectio({"measure", "recording", file, "--json"});
        CHECK(document.dump() == Json::parse(alone.out).dump());
    }
    const Json all =
        Json::parse(run_sectio({"measure", "recording", sounds, "--each", "--json"}).out);
    CHECK(all["count"] == 3);
    CHECK(all["done"] == 2);
    CHECK(all["failed"].size() == 1);
}

TEST_CASE("A sound file of a folder is found by whatever ending sound files have") {
    const support::TempDir folder;
    std::filesystem::create_directory(folder / "sounds");
    const std::string sound = notes({0, 702});
    std::size_t count = 0;
    for (const char* ending : {".w64", ".WAVE", ".aifc", ".caf", ".opus", ".rf64"})
        support::write_file(folder / ("sounds/" + std::to_string(++count) + ending), sound);
    support::write_file(folder / "sounds/read.me", "neither");
    const std::string sounds = (folder / "sounds").string();
    for (const std::vector<std::string>& command :
         {std::vector<std::string>{"measure", "recording", sounds, "--each", "--json"},
          {"identify", sounds, "--json"}}) {
        const Json answer = Json::parse(run_sectio(command).out);
        CHECK(answer["count"] == count);
    }
}

TEST_CASE("What is measured of each goes into a folder as what identify reads") {
    const support::TempDir folder;
    fill(folder / "sounds");
    const std::string out = (folder / "out").string();
    run_sectio({"measure", "recording", (folder / "sounds").string(), "--each", "--out", out});
    CHECK(std::filesystem::exists(folder / "out/more/note.csv"));
    const Outcome alone =
        run_sectio({"measure", "recording", (folder / "sounds/scale.wav").string(), "--out",
                    (folder / "alone.toml").string()});
    REQUIRE(alone.exit_code == 0);
    CHECK(support::read_file(folder / "out/scale.toml")
          == support::read_file(folder / "alone.toml"));
    CHECK(run_sectio({"measure", "recording", "--files-from", "-"}, {.input = "a.wav\n"}).exit_code
          == 2); // of a list each file is measured alone, which is said
}

TEST_CASE("Texts are taken out of every score of a folder as they were put in") {
    const support::TempDir folder;
    std::filesystem::create_directory(folder / "tunes");
    std::filesystem::copy(support::data_dir() / "examples/goose-walk.musicxml",
                          folder / "tunes/walk.musicxml");
    const auto annotate = [&](const char* from, std::vector<std::string> options) {
        options.insert(options.begin(), {"annotate", (folder / from).string()});
        return run_sectio(options);
    };
    const std::string texts = (folder / "texts").string(), bare = (folder / "bare").string();
    REQUIRE(annotate("tunes", {"--system", "19", "--out", texts}).exit_code == 0);
    const Outcome removed = annotate("texts", {"--remove", "--out", bare, "--json"});
    REQUIRE(removed.exit_code == 0);
    CHECK(Json::parse(removed.out)["files"][0]["removed"] > 0);
    const std::string one = (folder / "one.musicxml").string();
    REQUIRE(annotate("texts/walk.musicxml", {"--remove", "--out", one}).exit_code == 0);
    CHECK(support::read_file(folder / "bare/walk.musicxml") == support::read_file(one));
    CHECK(has(annotate("texts", {"--remove"}).err, "--out"));
}

TEST_CASE("Two files that would be written to one are refused before any work, both named") {
    const support::TempDir folder;
    fill(folder / "sounds");
    support::write_file(folder / "sounds/scale.flac", "whatever");
    const Outcome sounds = run_sectio({"measure", "recording", (folder / "sounds").string(),
                                       "--each", "--out", (folder / "out").string()});
    CHECK(sounds.exit_code == 3);
    CHECK(has(sounds.err, "scale.flac"));
    CHECK(has(sounds.err, "scale.wav"));
    CHECK_FALSE(std::filesystem::exists(folder / "out/more"));
    const std::string tune =
        support::read_file(support::data_dir() / "examples/goose-walk.musicxml");
    std::filesystem::create_directory(folder / "tunes");
    support::write_file(folder / "tunes/walk.musicxml", tune);
    support::write_file(folder / "tunes/walk.xml", tune);
    for (const char* threads : {"1", "2"}) {
        const Outcome tunes =
            run_sectio({"perform", (folder / "tunes").string(), "--system", "19", "--out",
                        (folder / "midi").string(), "--threads", threads});
        CHECK(tunes.exit_code == 3);
        CHECK(has(tunes.err, "walk.musicxml"));
        CHECK(has(tunes.err, "walk.xml"));
        CHECK_FALSE(std::filesystem::exists(folder / "midi/walk.mid"));
    }
    // The name is said as it would be written.
    const std::string scale = (folder / "sounds/scale.wav").string();
    CHECK(has(run_sectio({"measure", "recording", scale, scale, "--each", "--out", "again"},
                         {.folder = folder.path()})
                  .err,
              "again/scale.toml"));
    // A list puts files of several folders into one.
    std::filesystem::create_directory(folder / "other");
    support::write_file(folder / "other/walk.xml", tune);
    const std::string list = "\uFEFF" + (folder / "tunes/walk.xml").string() + "\n"
                             + (folder / "other/walk.xml").string() + "\n";
    const Outcome listed = run_sectio(
        {"annotate", "--files-from", "-", "--system", "19", "--out", (folder / "scores").string()},
        {.input = list});
    CHECK(listed.exit_code == 3);
    CHECK(has(listed.err, "other/walk.xml"));
    CHECK(has(listed.err, "two outputs")); // and not that the first, after its mark, is no file
    CHECK_FALSE(std::filesystem::exists(folder / "scores/walk.xml"));
}

TEST_CASE("What would be passed over without a word is refused") {
    const support::TempDir folder;
    fill(folder / "sounds");
    std::filesystem::create_directory(folder / "tunes");
    const std::string walk = (support::data_dir() / "examples/goose-walk.musicxml").string();
    std::filesystem::copy(walk, folder / "tunes/walk.musicxml");
    support::write_file(folder / "list", walk + "\n");
    support::write_file(folder / "known.csv", "rast,Rast\n");
    support::write_file(folder / "open.csv", "cents,name\n0,a\n204,\"b\n386,c\n702,d\n");
    const std::vector<std::pair<std::vector<std::string>, std::string>> rows{
        {{"annotate", "tunes", "--files-from", "list", "--scale", "rast"},
         "SCORE and --files-from do not go together"},
        {{"perform", "tunes", "--files-from", "list", "--scale", "rast"},
         "SCORE and --files-from do not go together"},
        {{"identify", "rast", "--files-from", "list"}, "SCALE and --files-from do not go together"},
        {{"measure", "recording", "sounds", "--each", "--files-from", "list"},
         "FILE and --files-from do not go together"},
        {{"annotate", "tunes", "--scale", "rast", "--out", "x", "--summary", "x.csv"},
         "--summary: the table of notes is of one score"},
        {{"identify", "rast", "--labels", "known.csv"}, "--labels: labels are for many files"},
        {{"identify", "rast", "--json-lines"}, "--json-lines: JSON lines are for many"},
        {{"annotate", walk, "--scale", "rast", "--json-lines"}, "for many files"},
        {{"measure", "recording", "sounds", "--json-lines"}, "--each"},
        {{"identify", "open.csv"}, "open.csv:3:5: a quotation mark opens this cell"}};
    for (const auto& [arguments, said] : rows) {
        CAPTURE(said);
        const Outcome outcome = run_sectio(arguments, {.folder = folder.path()});
        CHECK(outcome.exit_code == 2);
        CHECK(has(outcome.err, said));
        CHECK_FALSE(std::filesystem::exists(folder / "x"));
    }
}

TEST_CASE("Limit: files that one command works on together") {
    const support::TempDir folder;
    std::string list;
    for (std::size_t i = 0; i < sectio::limits::files_together; ++i)
        list += "a\n";
    support::write_file(folder / "list", list + "a\n");
    const auto annotated = [&](const char* out) {
        return run_sectio({"annotate", "--files-from", "list", "--remove", "--out", out},
                          {.folder = folder.path()});
    };
    CHECK(has(annotated("x").err, "a list of more than 1000000 files"));
    // As many are taken: two of them would be written to one file, which is found before any is
    // read.
    support::write_file(folder / "list", list);
    CHECK(has(annotated("x").err, "two outputs would go into this file"));
}

TEST_CASE("Results that lie within the folder worked on are no sources the next time") {
    const support::TempDir folder;
    const auto tune = support::data_dir() / "examples/goose-walk.musicxml";
    std::filesystem::create_directories(folder / "tunes");
    std::filesystem::copy_file(tune, folder / "tunes/walk.musicxml");
    for (const int time : {1, 2}) {
        CAPTURE(time);
        const Outcome outcome =
            run_sectio({"annotate", "tunes", "--system", "19", "--out", "tunes/marked", "--json"},
                       {.folder = folder.path()});
        CHECK(outcome.exit_code == 0);
        CHECK(Json::parse(outcome.out)["count"] == 1);
    }
    CHECK(std::filesystem::exists(folder / "tunes/marked/walk.musicxml"));
    CHECK_FALSE(std::filesystem::exists(folder / "tunes/marked/marked"));
    // The folder itself is none that results could go into.
    CHECK(run_sectio({"annotate", "tunes", "--system", "19", "--out", "tunes"},
                     {.folder = folder.path()})
              .exit_code
          == 3);
}

TEST_CASE("A link among the results leads to no file that is still to be read") {
    const support::TempDir folder;
    const std::string tune =
        support::read_file(support::data_dir() / "examples/goose-walk.musicxml");
    std::filesystem::create_directories(folder / "in/more");
    std::filesystem::create_directories(folder / "out");
    support::write_file(folder / "in/a.musicxml", tune);
    support::write_file(folder / "in/b.musicxml", tune + "<!-- the second -->\n");
    support::write_file(folder / "in/more/a.musicxml", tune);
    support::write_file(folder / "in/a.wav", notes({0, 204, 386}));
    support::write_file(folder / "in/b.wav", notes({0, 702}));
    const std::string second = support::read_file(folder / "in/b.musicxml"),
                      sound = support::read_file(folder / "in/b.wav");
    std::filesystem::create_symlink("../in/b.musicxml", folder / "out/a.musicxml");
    std::filesystem::create_symlink("../in", folder / "out/more");
    std::filesystem::create_symlink("../in/b.wav", folder / "out/a.toml");
    const auto refused = [&](const std::vector<std::string>& arguments) {
        const Outcome outcome = run_sectio(arguments, {.folder = folder.path()});
        CHECK(outcome.exit_code == 3);
        CHECK(has(outcome.err, "the output would overwrite an input file"));
        CHECK(support::read_file(folder / "in/b.musicxml") == second);
        CHECK(support::read_file(folder / "in/a.musicxml") == tune);
        CHECK(support::read_file(folder / "in/b.wav") == sound);
    };
    refused({"annotate", "in", "--system", "19", "--out", "out", "--threads", "1"});
    refused({"annotate", "in", "--remove", "--out", "out", "--threads", "1"});
    refused({"measure", "recording", "in", "--each", "--out", "out", "--threads", "1"});
}
