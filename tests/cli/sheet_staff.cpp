// `sectio sheet` as notes: clefs, accidentals and the score that it writes.

#include "support/json.hpp"
#include "support/paths.hpp"
#include "support/process.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using json = nlohmann::json;
using support::run_sectio;

namespace {

json staff(std::vector<std::string> options) {
    options.insert(options.begin(), {"sheet", "9/8,11/9,3/2", "--pages", "staff", "--json"});
    const auto outcome = run_sectio(options);
    INFO(outcome.err);
    REQUIRE(outcome.exit_code == 0);
    return support::json_of(outcome.out).at("staff");
}

std::string score(const std::vector<std::string>& options, const std::filesystem::path& file) {
    std::vector<std::string> arguments{"sheet", "9/8,11/9,3/2", "--out", file.string()};
    arguments.insert(arguments.end(), options.begin(), options.end());
    REQUIRE(run_sectio(arguments).exit_code == 0);
    return support::read_file(file);
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("Each clef that is asked for stands in the score") {
    const support::TempDir dir;
    const std::vector<std::pair<std::string, std::string>> clefs{
        {"treble", "<sign>G</sign>"},
        {"octave-treble", "<clef-octave-change>-1</clef-octave-change>"},
        {"alto", "<sign>C</sign>"},
        {"bass", "<sign>F</sign>"}};
    for (const auto& [clef, sign] : clefs) {
        INFO(clef);
        CHECK(has(score({"--clef", clef}, dir / "a.musicxml"), sign));
    }
    CHECK(score({"--clef", "auto"}, dir / "a.musicxml") == score({}, dir / "b.musicxml"));
}

TEST_CASE("Each kind of accidentals writes the nearest of its own steps") {
    // 11/9 is 347.4 cents: 52.6 below E, 2.6 below its quarter tone, 7.6 above step 15 of 53.
    CHECK(staff({"--accidentals", "plain"}).at(2).at("deviation_cents") == "47.408");
    CHECK(staff({"--accidentals", "quarter"}).at(2).at("deviation_cents") == "-2.592");
    CHECK(staff({"--accidentals", "comma"}).at(2).at("deviation_cents") == "7.785");
    CHECK(staff({"--accidentals", "plain"}).at(2).at("note") == "Eb4");
    CHECK(staff({}).at(2) == staff({"--accidentals", "plain"}).at(2));
}

TEST_CASE("An unknown clef, accidental, page or paper is refused with what there is") {
    const std::vector<std::tuple<std::string, std::string, std::string>> refused{
        {"--clef", "tenor-ish", "octave-treble"},
        {"--accidentals", "micro", "quarter"},
        {"--pages", "table,chart", "matrix"},
        {"--paper", "napkin", "letter"}};
    for (const auto& [option, value, known] : refused)
        for (const bool with_file : {false, true}) {
            const support::TempDir dir;
            std::vector<std::string> arguments{"sheet", "rast", option, value};
            if (with_file)
                arguments.insert(arguments.end(), {"--out", (dir / "x.pdf").string()});
            const auto outcome = run_sectio(arguments);
            INFO(outcome.err);
            CHECK(outcome.exit_code == 2);
            CHECK(outcome.out.empty());
            CHECK(has(outcome.err, option));
            CHECK(has(outcome.err, known));
            CHECK(!std::filesystem::exists(dir / "x.pdf"));
        }
}

TEST_CASE("A score is written and the figures are answered as JSON in one run") {
    const support::TempDir dir;
    const std::filesystem::path file = dir / "scale.musicxml";
    const auto outcome =
        run_sectio({"sheet", "9/8,11/9,3/2", "--tonic", "D4", "--json", "--out", file.string()});
    CHECK(outcome.exit_code == 0);
    const json answer = support::json_of(outcome.out);
    const std::string xml = support::read_file(file);
    const auto count = [&](const std::string& part) {
        std::size_t n = 0;
        for (std::size_t at = xml.find(part); at != std::string::npos; at = xml.find(part, at + 1))
            ++n;
        return n;
    };
    CHECK(answer.at("tonic") == "D4");
    CHECK(count("<pitch>") == answer.at("degrees").size() + 1); // the period closes it
    const auto silent = run_sectio({"sheet", "9/8", "--out", file.string()});
    CHECK(silent.exit_code == 0);
    CHECK(silent.out.empty());
}

TEST_CASE("A directory in place of a scale is called one") {
    const support::TempDir dir;
    const auto outcome = run_sectio({"sheet", dir.path().string()});
    CHECK(outcome.exit_code == 2);
    CHECK(has(outcome.err,
              "SCALE: a scale is needed, and this is a folder: `" + dir.path().string() + "`"));
    CHECK(has(outcome.err, "name a scale file"));
}
