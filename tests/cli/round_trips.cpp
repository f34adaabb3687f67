// What a command writes is read again as what it was.

#include <catch2/catch.hpp>
#include <support/json.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

#include <cmath>

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

TEST_CASE("Files of a sheet keep its tonic, reference, signs and places exactly") {
    const support::TempDir folder;
    const support::RunOptions here{.folder = folder.path()};
    const std::string citole = (support::data_dir() / "examples" / "sundhall-citole.toml").string();
    using Words = std::vector<std::string>;
    for (const Words& asked :
         {Words{"sheet", "13(3/1)", "--tonic", "293.3Hz", "--reference", "C4=256Hz"},
          {"sheet", "dastgah-shur", "--tonic", "D4", "--accidentals", "quarter"},
          {"sheet", "rast", "--tonic", "F#4"},
          {"sheet", citole}}) {
        const auto with = [](Words words, const Words& more) {
            words.insert(words.end(), more.begin(), more.end());
            return words;
        };
        const Words shown{"--digits", "9", "--pages", "table,staff", "--json"};
        const auto first = run_sectio(with(asked, shown), here);
        CAPTURE(asked, first.err);
        REQUIRE(first.exit_code == 0);
        for (const std::string& file : Words{"a.toml", "a.csv", "a.json"}) {
            REQUIRE(run_sectio(with(asked, {"--out", file}), here).exit_code == 0);
            const auto again = run_sectio(with({"sheet", file}, shown), here);
            CAPTURE(file, again.err);
            REQUIRE(again.exit_code == 0);
            const auto before = support::json_of(first.out), after = support::json_of(again.out);
            for (const char* key : {"tonic", "tonic_hz", "reference", "period", "staff"})
                CHECK(after.at(key) == before.at(key));
            CHECK(after.value("signs", "") == before.value("signs", ""));
            CHECK((file == "a.csv" || after.at("name") == before.at("name")));
            const auto& old = before.at("degrees");
            REQUIRE(after.at("degrees").size() == old.size());
            for (std::size_t i = 0; i < old.size(); ++i)
                for (const char* key : {"interval", "cents", "hz", "name", "written_note"})
                    CHECK(after.at("degrees")[i].at(key) == old[i].at(key));
        }
    }
}

TEST_CASE("Files of a measurement keep the tonic and the period that were asked for") {
    const support::TempDir folder;
    const support::RunOptions here{.folder = folder.path()};
    using Words = std::vector<std::string>;
    for (const Words& asked :
         {Words{"measure", "pitches", "A3+3c", "D4", "E4-29c", "--tonic", "D4"},
          {"measure", "pitches", "C5±0.5c", "F4+2c", "C4+0.25c±2c", "--period", "2/1"},
          {"measure", "pitches", "A3", "C#4-14c", "E4+2c", "A4+1.2c", "--period", "2/1"},
          {"measure", "frets", "330.7mm", "430mm", "--length", "612mm", "--open", "A3",
           "--reference", "C4=256Hz", "--period", "2/1"}}) {
        const auto answer = [&](const Words& words) {
            const auto outcome = run_sectio(words, here);
            CAPTURE(words, outcome.err);
            REQUIRE(outcome.exit_code == 0);
            return support::json_of(outcome.out);
        };
        for (const std::string& file : Words{"a.toml", "a.csv", "a.json"}) {
            Words write = asked;
            write.insert(write.end(), {"--out", file});
            REQUIRE(run_sectio(write, here).exit_code == 0);
        }
        const auto error_of_12 = [&](const char* file) {
            const auto row =
                answer({"divisions", "--targets", file, "--from", "12", "--to", "12", "--json"});
            return std::stod(row.at("divisions")[0].at("rms_error_cents").get<std::string>());
        };
        const auto kept = answer({"sheet", "a.toml", "--json"}),
                   named = answer({"identify", "a.toml", "--json"});
        for (const char* file : {"a.csv", "a.json"}) {
            CAPTURE(asked, file);
            const auto read = answer({"sheet", file, "--json"});
            CHECK(read.at("period") == kept.at("period"));
            REQUIRE(read.at("degrees").size() == kept.at("degrees").size());
            for (std::size_t i = 0; i < kept.at("degrees").size(); ++i) {
                const auto &one = read.at("degrees")[i], &other = kept.at("degrees")[i];
                CHECK(one.at("name") == other.at("name"));
                for (const char* key : {"cents", "hz"})
                    CHECK(std::stod(one.at(key).get<std::string>())
                          == Approx(std::stod(other.at(key).get<std::string>())).margin(0.01));
            }
            CHECK(error_of_12(file) == Approx(error_of_12("a.toml")).margin(0.01));
            // Those of other periods lie within the first in the scale file alone.
            const bool repeats = !kept.at("period").is_null();
            const auto cents = [&](const auto& pitch) {
                const double above = std::stod(pitch.at("cents").template get<std::string>());
                return repeats ? std::fmod(above + 1200, 1200) : above;
            };
            const auto heard =
                answer({"identify", file, "--json"}).at("pitches"); // above the tonic
            REQUIRE(heard.size() == named.at("pitches").size());
            for (std::size_t i = 0; i < heard.size(); ++i)
                CHECK(cents(heard[i]) == Approx(cents(named.at("pitches")[i])).margin(0.01));
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
