// The command `annotate` by its real output, on the invented tune of the examples.

#include <catch2/catch.hpp>
#include <support/json.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

#include <regex>

using nlohmann::json;
using support::run_sectio;

namespace {

std::string tune() {
    return (support::data_dir() / "examples/goose-walk.musicxml").string();
}
std::string zither() {
    return (support::data_dir() / "examples/sundhall-zither.toml").string();
}

std::size_t occurrences(const std::string& text, const std::string& piece) {
    std::size_t count = 0;
    for (auto at = text.find(piece); at != std::string::npos; at = text.find(piece, at + 1))
        ++count;
    return count;
}

/// The row of a written note; the test fails where the table has none, or two.
json row_of(const json& answer, const std::string& written) {
    std::vector<json> rows;
    for (const json& row : answer.at("table"))
        if (row.at("written") == written)
            rows.push_back(row);
    REQUIRE(rows.size() == 1);
    return rows.front();
}

} // namespace

TEST_CASE("annotate: counts, deviations and nothing unmatched") {
    const auto outcome = run_sectio({"annotate", tune(), "--scale", zither(), "--json"});
    REQUIRE(outcome.exit_code == 0);
    const json answer = support::json_of(outcome.out);
    CHECK(answer.at("notes") == 24);
    CHECK(answer.at("annotated") == 24);
    CHECK(answer.at("skipped") == 0);
    CHECK(answer.at("unmatched").empty());
    const json row = row_of(answer, "F#");
    CHECK(row.at("count") == 4);
    CHECK(row.at("deviation_cents") == "-48"); // 352 cents above D against F#, measured
    CHECK(row.at("deviation_cents_exact") == "-48.000");
}

TEST_CASE("annotate: without the inserted elements the score is the input again") {
    const support::TempDir dir;
    const auto out = dir / "out.musicxml";
    REQUIRE(run_sectio({"annotate", tune(), "--scale", zither(), "--out", out.string()}).exit_code
            == 0);
    const std::string annotated = support::read_file(out);
    CHECK(occurrences(annotated, "−48") == 4);
    // The tune has neither directions nor credits of its own.
    const std::regex inserted(
        "<!--sectio-->(<direction .*?</direction>|(<credit page.*?</credit>)+)<!--/sectio-->");
    CHECK(std::regex_replace(annotated, inserted, "") == support::read_file(tune()));
}

TEST_CASE("annotate: spelling is a place in the chain of fifths") {
    const auto outcome =
        run_sectio({"annotate", tune(), "--system", "quarter-comma-meantone", "--json"});
    REQUIRE(outcome.exit_code == 0);
    const json answer = support::json_of(outcome.out);
    CHECK(row_of(answer, "E").at("deviation_cents")
          == "-13.686"); // four fifths of 5^(1/4): 386.314
    CHECK(row_of(answer, "F#").at("deviation_cents") == "-20.529"); // six fifths: 579.471 cents
    CHECK(row_of(answer, "D").at("deviation_cents") == "-6.843");   // two: 193.157
}

TEST_CASE("A tuning system is taken by id or name, and tells where a scale belongs") {
    for (const std::string command : {"annotate", "perform", "listen"}) {
        const auto refused = run_sectio({command, tune(), "--system", "Hicaz"});
        CHECK(refused.exit_code == 2);
        CHECK(refused.err.find("hicaz is a scale") != std::string::npos);
        CHECK(refused.err.find("write --scale hicaz") != std::string::npos);
    }
    const auto by = [](const std::string& system) {
        return run_sectio({"annotate", tune(), "--system", system, "--json"}).out;
    };
    CHECK(by("Quarter-Comma Meantone") == by("quarter-comma-meantone"));
}

TEST_CASE("The rest names what has the notes that a scale lacks, and needs a scale") {
    const support::TempDir dir;
    const auto own = (dir / "own.toml").string();
    support::write_file(own, "name = \"own\"\ndegrees = [\"9/8\", \"350c\", \"3/2\"]\n");
    const std::vector<std::string> scale{"annotate", tune(), "--scale", own, "--tonic", "D4"};
    const auto alone = run_sectio(scale);
    REQUIRE(alone.exit_code == 0);
    CHECK(alone.out.find("--rest") != std::string::npos); // the cure
    CHECK(alone.out.find("note = \"F#\"") != std::string::npos);
    for (const std::string command : {"annotate", "perform", "listen"}) {
        auto arguments = scale;
        arguments.front() = command;
        for (const char* more : {"--rest", "pythagorean-12", "--json"})
            arguments.emplace_back(more);
        const auto whole = run_sectio(arguments);
        REQUIRE(whole.exit_code == 0);
        CHECK(support::json_of(whole.out).at("unmatched").empty());
        CHECK(support::json_of(whole.out).at("tuning").get<std::string>().find("; the rest: ")
              != std::string::npos);
        const auto refused = run_sectio({command, tune(), "--system", "12", "--rest", "19"});
        CHECK(refused.exit_code == 2);
        CHECK(refused.err.find("--scale SCALE --rest SYSTEM") != std::string::npos);
    }
    const auto scale_behind = run_sectio({"annotate", tune(), "--scale", own, "--rest", "hicaz"});
    CHECK(scale_behind.exit_code == 2);
}

TEST_CASE("annotate: notes that the scale lacks are listed with their place, and marked") {
    const support::TempDir dir;
    const auto out = dir / "out.musicxml";
    const auto outcome = run_sectio({"annotate", tune(), "--scale", "9/8,3/2", "--tonic", "D4",
                                     "--out", out.string(), "--json"});
    REQUIRE(outcome.exit_code == 0);
    const json answer = support::json_of(outcome.out);
    REQUIRE(!answer.at("unmatched").empty());
    const json first = answer.at("unmatched").at(0);
    for (const char* field : {"part", "measure", "pitch", "reason"})
        CHECK(!first.at(field).get<std::string>().empty());
    CHECK(answer.at("annotated").get<std::size_t>() + answer.at("unmatched").size() == 24);
    CHECK(occurrences(support::read_file(out), ">?<") == answer.at("unmatched").size());
}

TEST_CASE("annotate: the key for the desk is a page, and measured figures have no more digits") {
    const support::TempDir dir;
    const auto key = dir / "key.pdf";
    const auto outcome =
        run_sectio({"annotate", tune(), "--scale", zither(), "--summary", key.string()});
    REQUIRE(outcome.exit_code == 0);
    if (support::has_program("pdftotext")) {
        const std::string page = support::run({"pdftotext", "-layout", key.string(), "-"}).out;
        CHECK(page.find("The Goose Walk (invented)") != std::string::npos);
        CHECK(page.find("+47") != std::string::npos);
        CHECK(page.find("47.0") == std::string::npos);
    }
    CHECK(outcome.out.find("+47 ") != std::string::npos);
    CHECK(outcome.out.find("47.0") == std::string::npos);
    CHECK(outcome.out.starts_with("The Goose Walk (invented)\n"));
}

TEST_CASE("annotate: earlier texts are replaced, and --remove takes them out") {
    const support::TempDir dir;
    const std::string once = (dir / "once.musicxml").string(),
                      twice = (dir / "twice.musicxml").string(),
                      bare = (dir / "bare.musicxml").string();
    REQUIRE(run_sectio({"annotate", tune(), "--system", "19", "--out", once}).exit_code == 0);
    REQUIRE(run_sectio({"annotate", once, "--system", "19", "--out", twice}).exit_code == 0);
    CHECK(support::read_file(twice) == support::read_file(once));
    const auto outcome = run_sectio({"annotate", once, "--remove", "--out", bare, "--json"});
    REQUIRE(outcome.exit_code == 0);
    CHECK(support::json_of(outcome.out).at("removed") == 25); // 24 notes and the legend
    CHECK(support::read_file(bare) == support::read_file(tune()));
    CHECK(run_sectio({"annotate", once, "--remove"}).exit_code == 2); // nowhere to write it
    CHECK(run_sectio({"annotate", once, "--remove", "--out", once}).exit_code == 3);
}

TEST_CASE("annotate: a score comes from standard input too") {
    const support::TempDir dir;
    const std::string out = (dir / "out.musicxml").string(),
                      piped = (dir / "piped.musicxml").string();
    REQUIRE(run_sectio({"annotate", tune(), "--system", "19", "--out", out}).exit_code == 0);
    REQUIRE(run_sectio({"annotate", "-", "--system", "19", "--out", piped},
                       {support::read_file(tune())})
                .exit_code
            == 0);
    CHECK(support::read_file(piped) == support::read_file(out));
    const auto empty = run_sectio({"annotate", "-", "--system", "19"});
    CHECK(empty.exit_code == 2);
    CHECK(empty.err.find("standard input") != std::string::npos);
}

TEST_CASE("annotate: what cannot be meant is refused, and the input stays as it is") {
    const support::TempDir dir;
    support::write_file(dir / "cut.musicxml", support::read_file(tune()).substr(0, 900));
    support::write_file(dir / "own.musicxml", support::read_file(tune()));
    const std::string cut = (dir / "cut.musicxml").string(), own = (dir / "own.musicxml").string();
    CHECK(run_sectio({"annotate", cut, "--system", "pythagorean-12"}).exit_code == 2);
    CHECK(run_sectio({"annotate", tune()}).exit_code == 2);
    CHECK(run_sectio({"annotate", tune(), "--system", "rast-12"}).exit_code == 2);
    CHECK(run_sectio({"annotate", tune(), "--system", "12", "--out", "x.doc"}).exit_code == 2);
    CHECK(run_sectio({"annotate", (dir / "absent.xml").string(), "--system", "12"}).exit_code == 3);
    CHECK(run_sectio({"annotate", own, "--system", "12", "--out", own}).exit_code == 3);
    CHECK(support::read_file(own) == support::read_file(tune()));
    support::write_file(dir / "tune.wav", "RIFF");
    for (const char* command : {"annotate", "perform"})
        CHECK(run_sectio({command, (dir / "tune.wav").string(), "--system", "12"})
                  .err.find("a score is needed, and this is a recording")
              != std::string::npos);
}

TEST_CASE("identify: a score is judged as a melody") {
    const auto outcome = run_sectio({"identify", tune(), "--json"});
    REQUIRE(outcome.exit_code == 0);
    const json answer = support::json_of(outcome.out);
    REQUIRE(!answer.at("candidates").empty());
    for (const char* field : {"id", "start_degree"})
        CHECK(answer.at("candidates").at(0).contains(field));
    const std::string verdict = answer.at("verdict");
    CHECK((verdict == "fits" || verdict == "ambiguous" || verdict == "none"));
}
