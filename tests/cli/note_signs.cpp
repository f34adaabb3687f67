// Notes with signs as users type them: of one letter or two, in and beyond the first plane of
// Unicode. A written D♯ stays D♯, and a quarter tone stays half way between its keys.

#include <catch2/catch.hpp>
#include <support/json.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

using support::run_sectio;
using support::sectio_json;

namespace {

/// What the sheet of a fifth says of its tonic, and of the fifth.
std::string tonic_line(const std::string& tonic) {
    const auto outcome = run_sectio({"sheet", "3/2", "--tonic", tonic, "--pages", "table"});
    CAPTURE(outcome.err);
    REQUIRE(outcome.exit_code == 0);
    const auto from = outcome.out.find("Tonic");
    return outcome.out.substr(from + 17, outcome.out.find('\n', from) - from - 17);
}

} // namespace

TEST_CASE("note signs: the tonic keeps the letter and the sign that were written") {
    CHECK(tonic_line("D♯4") == "D♯4 ≈ 311.13 Hz"); // 440 x 2^(-6/12)
    CHECK(tonic_line("D#4") == "D♯4 ≈ 311.13 Hz");
    CHECK(tonic_line("E♭4") == "E♭4 ≈ 311.13 Hz");
    CHECK(tonic_line("Eb4") == "E♭4 ≈ 311.13 Hz");
    CHECK(tonic_line("D𝄪4") == "D𝄪4 ≈ 329.63 Hz"); // 440 x 2^(-5/12)
    CHECK(tonic_line("E𝄫4") == "E𝄫4 ≈ 293.66 Hz"); // 440 x 2^(-7/12)
}

TEST_CASE("note signs: a quarter tone lies between the keys, not on E sharp") {
    CHECK(tonic_line("D𝄲4") == "D4 +50.0 cents ≈ 302.27 Hz");  // 440 x 2^(-6.5/12)
    CHECK(tonic_line("E𝄳4") == "E♭4 +50.0 cents ≈ 320.24 Hz"); // 440 x 2^(-5.5/12)
}

TEST_CASE("note signs: readings, and a score's tonic, take them too") {
    const auto readings = run_sectio({"measure", "pitches", "D𝄲4", "G♯4", "--json"});
    CAPTURE(readings.err);
    REQUIRE(readings.exit_code == 0);
    const auto answer = support::json_of(readings.out);
    CHECK(answer.at("pitches")[0].at("hz") == "302.27");
    CHECK(answer.at("pitches")[1].at("cents") == "550.0"); // five and a half semitones
    const std::string tune = support::data_dir() / "examples/goose-walk.musicxml";
    const auto annotated = sectio_json({"annotate", tune, "--system", "24", "--tonic", "D𝄲4"});
    CHECK(annotated.at("tuning") == "24 equal steps, D𝄲4 without deviation");
}

TEST_CASE("note signs: what is half a sign is refused with its place") {
    const auto broken = run_sectio({"sheet", "3/2", "--tonic", "D\xF0\x9D\x84"});
    CHECK(broken.exit_code == 2);
    CHECK(broken.err.find("--tonic") != std::string::npos);
}
