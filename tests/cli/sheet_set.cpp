// `sectio sheet --all`: many sheets and their index.

#include "support/json.hpp"
#include "support/paths.hpp"
#include "support/process.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>

using support::run_sectio;
using Json = nlohmann::json;

TEST_CASE("A set has a sheet of each scale that the words describe, the same as one by one") {
    const support::TempDir folder;
    const auto outcome = run_sectio({"sheet", "--all", "--among", "indian", "--as", "csv", "--json",
                                     "--out", (folder / "set").string()});
    REQUIRE(outcome.exit_code == 0);
    const Json answer = Json::parse(outcome.out);
    REQUIRE(answer["sheets"].size() >= 3);
    CHECK(answer["count"] == answer["sheets"].size());
    const std::string index = support::read_file(folder / "set/index.html");
    for (const Json& sheet : answer["sheets"]) {
        const std::string file = sheet["file"];
        CHECK(index.find("href=\"./" + file + "\"") != std::string::npos);
        const std::string id = std::filesystem::path(file).stem().string();
        REQUIRE(run_sectio({"sheet", id, "--out", (folder / "one.csv").string()}).exit_code == 0);
        CHECK(support::read_file(folder / "one.csv") == support::read_file(folder / "set" / file));
    }
    if (support::has_program("xmllint"))
        CHECK(support::run({"xmllint", "--noout", (folder / "set/index.html").string()}).exit_code
              == 0);
}

TEST_CASE("A sheet of a set is the sheet alone in every kind") {
    const support::TempDir folder;
    for (const std::string kind : {"txt", "json", "pdf"}) {
        CAPTURE(kind);
        const std::string set = (folder / kind).string(), one = (folder / "one.").string() + kind;
        REQUIRE(
            run_sectio({"sheet", "--all", "rast", "9/8,3/2", "--as", kind, "--out", set}).exit_code
            == 0);
        REQUIRE(run_sectio({"sheet", "rast", "--out", one}).exit_code == 0);
        CHECK(support::read_file(folder / kind / ("rast." + kind)) == support::read_file(one));
    }
}

TEST_CASE("A set of listed scales gives each its own file") {
    const support::TempDir folder;
    support::write_file(folder / "index.toml", "name='<b>'\ndegrees=['3/2']");
    const auto outcome =
        run_sectio({"sheet", "--all", "rast", "9/8,5/4", "rast", (folder / "index.toml").string(),
                    "--as", "txt", "--out", (folder / "set").string()});
    REQUIRE(outcome.exit_code == 0);
    for (const char* file : {"rast.txt", "scale-2.txt", "rast-2.txt", "index-2.txt", "index.html"})
        CHECK(std::filesystem::exists(folder / "set" / file));
    CHECK(support::read_file(folder / "set/index.html").find("&lt;b&gt;") != std::string::npos);
}

TEST_CASE("Where sheets of a set fail the others are written, with an index that names both") {
    const support::TempDir folder;
    const auto zither = support::source_dir() / "data/examples/sundhall-zither-instrument.toml";
    support::write_file(folder / "broken.toml", "name = 'broken'\ndegrees = ['3/2', '5/4']");
    const std::string broken = (folder / "broken.toml").string();
    const auto outcome =
        run_sectio({"sheet", "--all", broken, "9/8", zither.string(), "--pages", "instrument",
                    "--as", "svg", "--json", "--out", (folder / "set").string()});
    CHECK(outcome.exit_code == 2);
    const std::vector<std::string> told = support::lines_of(outcome.err);
    REQUIRE(told.size() == 2);
    const Json first = Json::parse(told[0])["error"];
    CHECK(first["where"]["source"] == broken);
    CHECK(first["where"]["line"] == 2);
    const Json second = Json::parse(told[1])["error"];
    CHECK(second["where"]["source"] == "9/8: --pages");
    CHECK(second["id"] == "chart_without_instrument");
    CHECK(std::filesystem::exists(folder / "set/sundhall-zither-instrument.svg"));
    CHECK(!std::filesystem::exists(folder / "set/scale-2.svg"));
    const Json answer = Json::parse(outcome.out);
    CHECK(answer["count"] == 1);
    REQUIRE(answer["failed"].size() == 2);
    CHECK(answer["failed"][0]["scale"] == broken);
    CHECK(answer["failed"][1]["scale"] == "9/8");
    const std::string index = support::read_file(folder / "set/index.html");
    CHECK(index.find("href=\"./sundhall-zither-instrument.svg\"") != std::string::npos);
    CHECK(index.find("<bdi>9/8</bdi>: --pages: this page needs an instrument")
          != std::string::npos);
    CHECK(index.find("scale-2") == std::string::npos);
}

TEST_CASE("A set of which no sheet can be made leaves no folder") {
    const support::TempDir folder;
    const auto outcome =
        run_sectio({"sheet", "--all", "no-such-scale", "--out", (folder / "set").string()});
    CHECK(outcome.exit_code == 2);
    CHECK(outcome.err.find("sectio: no-such-scale: this is neither") == 0);
    CHECK(!std::filesystem::exists(folder / "set"));
}

TEST_CASE("A set is refused where it has no folder, no kind, or one sheet is meant") {
    const support::TempDir folder;
    const std::string out = (folder / "set").string();
    CHECK(run_sectio({"sheet", "--all"}).exit_code == 2);
    CHECK(run_sectio({"sheet", "--all", "--as", "doc", "--out", out}).exit_code == 2);
    CHECK(run_sectio({"sheet"}).exit_code == 2);
    CHECK(run_sectio({"sheet", "--all", "rast", "--out", "/dev/null"}).exit_code == 3);
    CHECK(!std::filesystem::exists(out));
}
