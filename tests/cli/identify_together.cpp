// `sectio identify` of many files: a folder, a list, names that are known. All tunes are invented.

#include "support/json.hpp"
#include "support/paths.hpp"
#include "support/process.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <map>

using support::run_sectio;
using Json = nlohmann::ordered_json;

namespace {

/// A folder of three sets, one of them in a folder of its own, a file that cannot be read, and what
/// is none of the kinds.
void fill(const std::filesystem::path& folder) {
    std::filesystem::create_directories(folder / "more");
    support::write_file(folder / "b.csv", "cents\n0\n204\n385\n498\n702\n815\n1087\n");
    support::write_file(folder / "a set.csv", "cents\n0\n181\n294\n498\n702\n883\n996\n");
    support::write_file(folder / "more/c.csv", "cents\n0\n200\n400\n500\n700\n900\n1100\n");
    support::write_file(folder / "broken.csv", "cents\n0\nabc\n");
    support::write_file(folder / "notes.md", "no set\n");
}

Json answered(const std::vector<std::string>& arguments, int exit_code) {
    const auto outcome = run_sectio(arguments);
    CAPTURE(outcome.err);
    REQUIRE(outcome.exit_code == exit_code);
    return Json::parse(outcome.out);
}

} // namespace

TEST_CASE("A folder is named file by file, and what cannot be read keeps no other back") {
    const support::TempDir folder;
    fill(folder / "sets");
    const auto outcome = run_sectio({"identify", (folder / "sets").string(), "--json"});
    CHECK(outcome.exit_code == 2);
    const Json where = Json::parse(outcome.err)["error"]["where"];
    CHECK(where["source"] == (folder / "sets/broken.csv").string());
    CHECK(where["line"] == 3);
    const Json all = Json::parse(outcome.out);
    CHECK(all["count"] == 4);
    CHECK(all["read"] == 3);
    REQUIRE(all["files"].size() == 3); // in the order of their paths
    CHECK(all["files"][0]["file"] == (folder / "sets/a set.csv").string());
    CHECK(all["files"][2]["file"] == (folder / "sets/more/c.csv").string());
    CHECK(all["failed"].size() == 1);
    for (const Json& file : all["files"]) {
        const Json one = answered({"identify", file["file"], "--json"}, 0);
        CHECK(file["verdict"] == one["verdict"]);
        CHECK(file["id"] == one["candidates"][0]["id"]);
        CHECK(file["probability"] == one["candidates"][0]["probability"]);
    }
}

TEST_CASE("Lines of JSON are the answers one by one, byte for byte, with any number of threads") {
    const support::TempDir folder;
    fill(folder / "sets");
    std::filesystem::remove(folder / "sets/broken.csv");
    const std::string sets = (folder / "sets").string();
    const auto one = run_sectio({"identify", sets, "--json-lines", "--threads", "1"});
    const auto three = run_sectio({"identify", sets, "--json-lines", "--threads", "3"});
    REQUIRE(one.exit_code == 0);
    CHECK(one.out == three.out);
    const auto lines = support::lines_of(one.out);
    REQUIRE(lines.size() == 3);
    for (const std::string& line : lines) {
        Json document = Json::parse(line);
        const std::string file = document["file"];
        document.erase("file");
        CHECK(document.dump(2) + "\n" == run_sectio({"identify", file, "--json"}).out);
    }
}

TEST_CASE("A list of files stands in a file or on standard input, its names ended by line or NUL") {
    const support::TempDir folder;
    fill(folder / "sets");
    const std::string a = (folder / "sets/a set.csv").string(),
                      b = (folder / "sets/b.csv").string();
    support::RunOptions lines, nuls;
    lines.input = b + "\r\n\n" + a + "\n";
    nuls.input = b + std::string(1, '\0') + a + std::string(1, '\0');
    const auto by_line = run_sectio({"identify", "--files-from", "-", "--json"}, lines);
    REQUIRE(by_line.exit_code == 0);
    CHECK(Json::parse(by_line.out)["files"][0]["file"] == b); // in the order of the list
    CHECK(run_sectio({"identify", "--files-from", "-", "--json"}, nuls).out == by_line.out);
    support::write_file(folder / "list", lines.input);
    CHECK(run_sectio({"identify", "--files-from", (folder / "list").string(), "--json"}).out
          == by_line.out);
    support::RunOptions empty;
    empty.input = "\n";
    const auto none = run_sectio({"identify", "--files-from", "-"}, empty);
    CHECK(none.exit_code == 2);
    CHECK(none.err.find("there is no file to read") != std::string::npos);
    // Every failure of a list is told as JSON where JSON is asked for, not the last alone.
    const auto failed = run_sectio({"identify", "--files-from", "-", "--json"},
                                   {.input = "no-such-a.csv\nno-such-b.csv\n"});
    const auto told = support::lines_of(failed.err);
    REQUIRE(told.size() == 2);
    for (const std::string& line : told)
        CHECK(Json::parse(line)["error"]["exit_code"] == failed.exit_code);
    CHECK(run_sectio({"identify"}).exit_code == 2);
}

// The example of docs/commands/identify.md, by xargs, which every system has, and by GNU parallel.
TEST_CASE("Other programs spread a list over processes, and lines of JSON come together again") {
    const support::TempDir folder;
    fill(folder / "sets");
    std::filesystem::remove(folder / "sets/broken.csv");
    const std::string find = "find " + (folder / "sets").string() + " -name '*.csv' -print0 | ",
                      identify = support::sectio_binary().string() + " identify --json-lines";
    const auto xargs = support::run({"sh", "-c",
                                     find + "xargs -0 -n 1 -P 2 sh -c 'printf \"%s\\0\" \"$@\" | "
                                         + identify + " --files-from -' sh | sort"});
    REQUIRE(xargs.exit_code == 0);
    CHECK(support::lines_of(xargs.out).size() == 3);
    const auto together = run_sectio({"identify", (folder / "sets").string(), "--json-lines"});
    for (const std::string& line : support::lines_of(together.out))
        CHECK(xargs.out.find(line + "\n") != std::string::npos);
    if (support::has_program("parallel")) {
        const auto parallel = support::run({"sh", "-c",
                                            find + "parallel -0 --pipe -N 1 --recend '\\0' "
                                                + identify + " --files-from - | sort"});
        CHECK(parallel.out == xargs.out);
    }
}

TEST_CASE("Names that are known are compared with what files were named") {
    const support::TempDir folder;
    fill(folder / "sets");
    std::filesystem::remove(folder / "sets/broken.csv");
    support::write_file(folder / "labels.csv",
                        "file,name\na set.csv,Hüseynî\nb,suznak\nc.csv,rast\nelsewhere,rast\n");
    const std::string sets = (folder / "sets").string();
    const Json all =
        answered({"identify", sets, "--json", "--labels", (folder / "labels.csv").string()}, 0);
    CHECK(all["labels"]["files"] == 3);
    CHECK(all["files"][0]["label_place"] == 1); // by name, with diacritics; or by a namesake
    CHECK(all["files"][1]["label_place"] == 1); // the file's name without its ending
    CHECK(all["files"][2]["label_place"] != 1);
    REQUIRE(all["confusion"].size() == 3);
    CHECK(all["confusion"][0]["label"] == "Hüseynî");
    CHECK(all["confusion"][0]["first"] == 1);
    CHECK(all["confusion"][1]["first"] == 0); // rast, taken for something of 12 equal steps
    CHECK(all["confusion"][1]["taken_for"].size() == 1);
    std::size_t files = 0;
    for (const Json& tenth : all["reliability"])
        files += tenth["files"].get<std::size_t>();
    CHECK(files == 3);
    CHECK(all["remarks"] == Json{"Labels of files that are not here: elsewhere."});
    support::write_file(folder / "labels.csv", "b,suznakk\nc.csv,rast\n");
    CHECK(answered({"identify", sets, "--json", "--labels", (folder / "labels.csv").string()},
                   0)["remarks"]
          == Json{"Labels that no scale of the catalogue is called, so that their files count as "
                  "wrong: suznakk."});
    support::write_file(folder / "broken-labels.csv", "file,name\na.csv\n");
    const auto refused =
        run_sectio({"identify", sets, "--labels", (folder / "broken-labels.csv").string()});
    CHECK(refused.exit_code == 2);
    CHECK(refused.err.find("broken-labels.csv:2:") != std::string::npos);
}

TEST_CASE("A recording is named as what measuring hands on") {
    const support::TempDir folder;
    const std::string sound = (folder / "scale.wav").string();
    REQUIRE(run_sectio({"listen", "rast", "--tonic", "D4", "--out", sound}).exit_code == 0);
    const Json one = answered({"identify", sound, "--json"}, 0);
    support::RunOptions handed;
    handed.input = run_sectio({"measure", "recording", sound}).out;
    const auto measured = run_sectio({"identify", "-", "--json"}, handed);
    REQUIRE(measured.exit_code == 0);
    CHECK(Json::parse(measured.out) == one);
    CHECK(one["candidates"].size() >= 1);
}

TEST_CASE("Scores of a folder are annotated and performed together as they are one by one") {
    const support::TempDir folder;
    const auto walk =
        support::read_file(support::source_dir() / "tests/unit/transcripts/comma-walk.musicxml");
    std::filesystem::create_directories(folder / "scores/more");
    support::write_file(folder / "scores/a.musicxml", walk);
    support::write_file(folder / "scores/more/b.musicxml", walk);
    support::write_file(folder / "scores/broken.xml", "<score");
    const std::string scores = (folder / "scores").string(), out = (folder / "out").string(),
                      b = (folder / "scores/more/b.musicxml").string();
    const std::map<std::string, std::string> endings{{"annotate", ".musicxml"},
                                                     {"perform", ".mid"}};
    for (const auto& [name, kind] : endings) {
        const std::string command = name, ending = kind; // a lambda holds no bindings
        const std::vector<std::string> tuning{"--system", "turkish-24", "--json", "--out"};
        const auto run = [&](const std::string& score, const std::string& into) {
            std::vector<std::string> arguments{command, score};
            arguments.insert(arguments.end(), tuning.begin(), tuning.end());
            arguments.push_back(into);
            return run_sectio(arguments);
        };
        const auto together = run(scores, out);
        INFO(command << ": " << together.err);
        CHECK(together.exit_code == 2);
        CHECK(together.err.find("broken.xml") != std::string::npos);
        const Json all = Json::parse(together.out);
        CHECK(all["done"] == 2);
        REQUIRE(all["files"].size() == 2);
        const auto alone = run(b, (folder / ("b" + ending)).string());
        REQUIRE(alone.exit_code == 0);
        CHECK(all["files"][1]["notes"] == Json::parse(alone.out)["notes"]);
        CHECK(support::read_file(folder / ("out/more/b" + ending))
              == support::read_file(folder / ("b" + ending)));
    }
}
