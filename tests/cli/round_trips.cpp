// What a command writes is read again as what it was.

#include <catch2/catch.hpp>
#include <support/json.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

using support::run_sectio;

namespace {

const std::string file = R"(
name = "Mine"
tonic = "D4-12c"
reference = "A4=442Hz"
period = "3/1"
degrees = [
  { interval = "1/1", name = "=low", uncertainty = "0.5c" },
  { interval = "9/8", note = "E" },
  { interval = "31of53", note = "Bb" },
  { interval = "715c", uncertainty = "0.8165c" },
  { interval = "3/1", name = "end" },
]
)";

} // namespace

TEST_CASE("A sheet as scale file, CSV or JSON is the same scale again") {
    const support::TempDir folder;
    const support::RunOptions here{.folder = folder.path()};
    for (const std::string& scale : {std::string("mine.toml"), std::string("rast"),
                                     std::string("440Hz,470.3Hz±0.5Hz,528Hz")}) {
        support::write_file(folder / "mine.toml", file);
        const auto degrees = [&](const std::string& from) {
            const auto answer = run_sectio({"sheet", from, "--json"}, here);
            CAPTURE(scale, from, answer.err);
            REQUIRE(answer.exit_code == 0);
            const auto json = support::json_of(answer.out);
            return json.at("tonic_hz").dump() + json.at("reference_hz").dump()
                   + json.at("period").dump() + json.at("degrees").dump();
        };
        const auto named = [&](const std::string& from) {
            return support::json_of(run_sectio({"identify", from, "--json"}, here).out)
                .at("candidates");
        };
        const std::string before = degrees(scale);
        for (const char* ending : {"toml", "csv", "json"}) {
            const std::string written = std::string("again.") + ending;
            REQUIRE(run_sectio({"sheet", scale, "--out", written}, here).exit_code == 0);
            CHECK(degrees(written) == before);
            CHECK(named(written) == named(scale));
        }
    }
}

TEST_CASE("The JSON of tuning data that was read is its scale, with its period") {
    const support::TempDir folder;
    const support::RunOptions here{.folder = folder.path()};
    for (const char* command : {"tuning rast --out t.syx", "tuning read t.syx --out t.toml",
                                "tuning read t.syx --out t.json"}) {
        std::vector<std::string> words{"bash", "-c", "exec \"$0\" " + std::string(command),
                                       support::sectio_binary().string()};
        REQUIRE(support::run(words, here).exit_code == 0);
    }
    const auto period = [&](const char* file) {
        return support::json_of(run_sectio({"sheet", file, "--json"}, here).out)
            .at("period")
            .at("cents");
    };
    CHECK(period("t.json") == period("t.toml"));
}

TEST_CASE("The half widths of readings are those of the scale file in a table and in JSON too") {
    const support::TempDir folder;
    const support::RunOptions here{.folder = folder.path()};
    const auto widths = [&](const std::string& ending) {
        const std::string written = "measured." + ending;
        REQUIRE(run_sectio({"measure", "pitches", "D4-12c", "E4-20c,E4-21c,E4-21c", "A4+3c",
                            "--out", written},
                           here)
                    .exit_code
                == 0);
        std::vector<std::string> all;
        const auto json = support::json_of(run_sectio({"sheet", written, "--json"}, here).out);
        for (const auto& degree : json.at("degrees"))
            all.push_back(degree.at("uncertainty_cents_exact"));
        return all;
    };
    CHECK(widths("csv") == widths("toml"));
    CHECK(widths("json") == widths("toml"));
}

TEST_CASE("An instrument file is read on standard input, and an output may have the longest name") {
    const std::string cittern =
        support::read_file(support::data_dir() / "examples" / "sundhall-cittern.toml");
    const auto named =
        run_sectio({"frets", "rast", "--instrument",
                    (support::data_dir() / "examples" / "sundhall-cittern.toml").string()});
    CHECK(named.exit_code == 0);
    CHECK(run_sectio({"frets", "rast", "--instrument", "-"}, {.input = cittern}).out == named.out);
    const std::string zither =
        (support::data_dir() / "examples" / "sundhall-zither-instrument.toml").string();
    CHECK(run_sectio({"measure", "frets", "-"}, {.input = support::read_file(zither)}).out
          == run_sectio({"measure", "frets", zither}).out);

    const support::TempDir folder;
    const std::string longest = std::string(251, 'x') + ".csv";
    CHECK(run_sectio({"sheet", "rast", "--out", longest}, {.folder = folder.path()}).exit_code
          == 0);
    CHECK(std::filesystem::exists(folder / longest));
}

TEST_CASE("Of a list of notes and frequencies the reference moves the notes alone") {
    const auto row = [](const std::vector<std::string>& words, std::size_t at) {
        std::vector<std::string> asked = words;
        asked.insert(asked.end(), {"--json", "--reference", "A4=442Hz"});
        const auto answer = run_sectio(asked);
        CAPTURE(words, answer.err);
        REQUIRE(answer.exit_code == 0);
        return support::json_of(answer.out).at("degrees").at(at);
    };
    CHECK(row({"sheet", "D4,330Hz"}, 1).at("hz") == "330.000");
    CHECK(row({"sheet", "330Hz,A4"}, 1).at("hz") == "442.000");
    CHECK(row({"sheet", "330Hz,A4"}, 1).at("deviation_cents") == "0.000");
    CHECK(row({"sheet", "330Hz,A4", "--tonic", "A4"}, 1).at("hz") == "442.000");
    const support::TempDir folder;
    support::write_file(folder / "t.csv", "pitch,reference_hz\nD4,442\n330Hz,442\n");
    CHECK(row({"sheet", (folder / "t.csv").string()}, 1).at("hz") == "330.000");

    const auto low = run_sectio({"sheet", "D4,E4,A4", "--tonic", "D4", "--reference", "A4=415Hz"});
    CHECK(low.exit_code == 0);
}

TEST_CASE("The pitch that --tonic names is the tonic where frets are planned and scales compared") {
    const auto frets =
        run_sectio({"frets", "C4,D4,F4", "--tonic", "D4", "--length", "600mm", "--json"});
    const auto json = support::json_of(frets.out);
    REQUIRE(json.at("frets").size() == 1); // F above D; C lies below
    CHECK(json.at("frets")[0].at("cents") == "300.000");
    const auto compared = run_sectio({"compare", "C4,D4,F4", "12", "--tonic", "D4", "--json"});
    const auto degrees = support::json_of(compared.out).at("pairs")[0].at("degrees");
    CHECK(degrees.size() == 3);
    CHECK(degrees[1].at("note") == "D4");
    CHECK(degrees[2].at("note") == "F4");
}
