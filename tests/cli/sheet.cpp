// The command `sheet` by its real output: the figures as JSON, and files written whole or not at
// all.

#include <catch2/catch.hpp>
#include <support/json.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

using nlohmann::json;
using support::run_sectio;

namespace {

json sheet(std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(), "sheet");
    return support::sectio_json(std::move(arguments));
}

} // namespace

TEST_CASE("sheet: the fields of its JSON, by a makam of 53 steps") {
    const json rast = sheet({"rast", "--tonic", "D4"});
    CHECK(rast.at("name") == "Rast");
    CHECK(rast.at("tonic") == "D4");
    REQUIRE(rast.at("degrees").size() == 7);
    const json third = rast.at("degrees").at(2);
    CHECK(third.at("index") == 2);
    CHECK(third.at("name") == "Segâh");
    CHECK(third.at("interval") == "17of53");
    CHECK(third.at("cents") == "384.906"); // 17 * 1200 / 53
    CHECK(third.at("next_cents") == "113.208");
    const json in12 = third.at("against").at(0), in53 = third.at("against").at(1);
    CHECK(in12.at("division") == 12);
    CHECK(in12.at("step") == 4);
    CHECK(in12.at("step_cents") == "400.000");
    CHECK(in12.at("error_cents") == "15.094");
    CHECK(in12.at("note") == "F#4");
    CHECK(in12.at("deviation_cents") == "-15.094");
    CHECK(in53.at("step") == 17);
    CHECK(in53.at("error_cents") == "0.000");
    CHECK(rast.at("summary").at(0).at("max_error_cents") == "15.094");
    CHECK(rast.at("period").at("note") == "D5");
}

TEST_CASE(
    "sheet: a measured degree is rounded alike everywhere, and its digits are kept beside it") {
    const json zither = sheet({(support::data_dir() / "examples/sundhall-zither.toml").string()});
    const json first = zither.at("degrees").at(1);
    CHECK(first.at("uncertainty_cents") == "3");
    CHECK(first.at("uncertainty_cents_exact") == "3.000");
    CHECK(first.at("cents") == "171");
    CHECK(first.at("cents_exact") == "171.000");
    CHECK(first.at("deviation_cents") == "-29");
    CHECK(zither.at("tonic") == "D4");
}

TEST_CASE("sheet: every kind of file is written, and only that file") {
    const support::TempDir dir;
    for (const char* kind : {"pdf", "svg", "html", "txt", "csv", "json"}) {
        const auto file = dir / (std::string("s.") + kind);
        CAPTURE(file);
        CHECK(run_sectio({"sheet", "rast", "--out", file.string()}).exit_code == 0);
        CHECK(!support::read_file(file).empty());
    }
    CHECK(std::distance(support::fs::directory_iterator(dir.path()), {}) == 6);
}

TEST_CASE("sheet: an unwritable target gives 3 and leaves nothing half-written") {
    const support::TempDir dir;
    const auto absent = dir / "absent" / "s.pdf";
    const auto outcome = run_sectio({"sheet", "rast", "--out", absent.string()});
    CHECK(outcome.exit_code == 3);
    CHECK(outcome.err.find(absent.string()) != std::string::npos);
    CHECK(support::fs::is_empty(dir.path()));
}

TEST_CASE("sheet: the scale file itself is never overwritten") {
    const support::TempDir dir;
    const std::string toml = "name = \"x\"\ndegrees = [\"3/2\"]\n";
    support::write_file(dir / "s.csv", toml);
    const std::string file = (dir / "s.csv").string();
    CHECK(run_sectio({"sheet", file, "--out", file}).exit_code == 3);
    CHECK(support::read_file(dir / "s.csv") == toml);
}

TEST_CASE("sheet: a mistake in a scale file names file, line, column, piece and advice") {
    const support::TempDir dir;
    support::write_file(dir / "bad.toml", "name = \"x\"\ndegrees = [\"9/8\", \"5/0\"]\n");
    const auto outcome = run_sectio({"sheet", "bad.toml"}, {.folder = dir.path()});
    CHECK(outcome.exit_code == 2);
    CHECK(outcome.out.empty());
    CHECK(outcome.err
          == "sectio: bad.toml:2:22: neither number of a ratio can be zero: `0`; write two "
             "positive whole "
             "numbers, such as 3/2\n");
}

TEST_CASE("sheet: standard input is a scale file") {
    const auto outcome =
        run_sectio({"sheet", "-", "--json"}, {.input = "name = \"in\"\ndegrees = [\"3/2\"]"});
    CHECK(outcome.exit_code == 0);
    CHECK(support::json_of(outcome.out).at("name") == "in");
}

TEST_CASE("sheet: what cannot be meant is refused") {
    for (const std::vector<std::string>& arguments : std::vector<std::vector<std::string>>{
             {"sheet", "rast", "--out", "x.doc"},
             {"sheet", "rast", "--paper", "napkin", "--out", "x.pdf"},
             {"sheet", "rast", "--paper", "napkin"},
             {"sheet", "rast", "--pages", "table,chart"},
             {"sheet", "rast", "--tonic", "H4"},
             {"sheet", "rast", "--reference", "A4"},
             {"sheet", "raast"},
             {"sheet", "5/4,9/8"},
             {"sheet", "rast", "--against", "1,2,3,4,5,6,7,8,9,10,11,12,13"},
             {"sheet"}}) {
        const auto outcome = run_sectio(arguments);
        CAPTURE(arguments, outcome.err);
        CHECK(outcome.exit_code == 2);
        CHECK(outcome.out.empty());
    }
}

TEST_CASE("sheet: takes what was measured, as tuner, ruler or another command gave it") {
    const support::TempDir dir;
    support::write_file(dir / "tuner.csv", "note,cents\nD4,3\nE4,-12\nA4,0\n");
    const json tuner = sheet({(dir / "tuner.csv").string()});
    CHECK(tuner.at("tonic") == "D4+3c");
    CHECK(tuner.at("degrees").at(1).at("cents") == "185.000");
    const json hertz = sheet({"440Hz, 295Hz±0.5Hz, 330Hz", "--tonic", "D4"});
    CHECK(hertz.at("tonic") == "295Hz");
    CHECK(hertz.at("degrees").at(2).at("interval") == "88/59");
    CHECK(sheet({"203±3c, 386c"}).at("degrees").at(1).at("uncertainty_cents") == "3");
    support::write_file(dir / "sheet.json", sheet({"rast", "--tonic", "D4"}).dump());
    CHECK(sheet({(dir / "sheet.json").string()}).at("degrees")
          == sheet({"rast", "--tonic", "D4"}).at("degrees"));
    CHECK(sheet({"9/8,5/4", "--tonic", "E♭"}).at("degrees").at(0).at("note") == "Eb4");
}

TEST_CASE("sheet: a reckoned place is shown by its size, and kept exactly for programs") {
    const std::string citole = (support::data_dir() / "examples/sundhall-citole.toml").string();
    const std::string exact = sheet({citole}).at("degrees").at(1).at("interval");
    CHECK(exact.find("2^(") == 0);
    const std::string text = run_sectio({"sheet", citole}).out;
    CHECK(text.find("2^(") == std::string::npos);
    CHECK(text.find("first fret   203c ") != std::string::npos);
    // A measured ratio of few figures stays a ratio.
    CHECK(run_sectio({"sheet", "59/50±3c"}).out.find("59/50") != std::string::npos);
}

TEST_CASE("sheet: a scale is kept as a scale file, under a title of its own") {
    const support::TempDir dir;
    const std::string file = (dir / "kept.toml").string();
    const auto kept =
        run_sectio({"sheet", "rast", "--tonic", "D4", "--title", "Mine", "--out", file});
    CHECK(kept.exit_code == 0);
    const json read = sheet({file});
    CHECK(read.at("name") == "Mine");
    CHECK(read.at("tonic") == "D4");
    CHECK(read.at("degrees") == sheet({"rast", "--tonic", "D4"}).at("degrees"));
    CHECK(sheet({"rast", "--title", "Mine"}).at("name") == "Rast"); // the scale's name stays
    const auto text = run_sectio({"sheet", "rast", "--title", "Mine"});
    CHECK(text.out.starts_with("Mine\n"));
}

TEST_CASE("sheet: what is no scale is told what is near it") {
    const auto outcome = run_sectio({"sheet", "bagpipe"});
    CHECK(outcome.exit_code == 2);
    CHECK(outcome.err.find("did you mean") != std::string::npos);
}
