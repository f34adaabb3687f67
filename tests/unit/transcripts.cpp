// Whole answers of commands, figure by figure: tests/unit/transcripts/*.txt say what each prints.
// Where a change is meant, SECTIO_ACCEPT=1 writes the files anew; look through the difference.

#include "support/paths.hpp"
#include "transcript.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>

namespace {

void check(const std::string& name) {
    const auto file = support::source_dir() / "tests/unit/transcripts" / (name + ".txt");
    support::Transcript transcript = support::read_transcript(support::read_file(file));
    REQUIRE_FALSE(transcript.commands.empty());
    const bool accept = std::getenv("SECTIO_ACCEPT") != nullptr;
    support::InProcess process;
    for (support::Transcribed& each : transcript.commands) {
        const std::string now = process.run(each.command);
        INFO("$ " << each.command);
        if (accept)
            each.output = now;
        else
            CHECK(now == each.output);
    }
    if (accept)
        support::write_file(file, support::written(transcript));
}

} // namespace

TEST_CASE("Whole answers: interval") {
    check("interval");
}
TEST_CASE("Whole answers: divisions") {
    check("divisions");
}
TEST_CASE("Whole answers: commas") {
    check("commas");
}
TEST_CASE("Whole answers: compare") {
    check("compare");
}
TEST_CASE("Whole answers: sheet") {
    check("sheet");
}
TEST_CASE("Whole answers: catalogue") {
    check("catalogue");
}
TEST_CASE("Whole answers: identify") {
    check("identify");
}
TEST_CASE("Whole answers: annotate") {
    check("annotate");
}
TEST_CASE("Whole answers: frets") {
    check("frets");
}
TEST_CASE("Whole answers: measure") {
    check("measure");
}
TEST_CASE("Whole answers: perform") {
    check("perform");
}
TEST_CASE("Whole answers: tuning") {
    check("tuning");
}
TEST_CASE("Whole answers: listen") {
    check("listen");
}
TEST_CASE("A transcript is read and written back as it is") {
    const std::string text = "heading\n\n$ sectio a 'b c'\nout\n\n$ sectio d\n";
    const support::Transcript transcript = support::read_transcript(text);
    REQUIRE(transcript.commands.size() == 2);
    CHECK(transcript.commands[0].output == "out\n\n");
    CHECK(written(transcript) == text);
    CHECK(support::words_of("a  'b c' \"\" d\"e f\"")
          == std::vector<std::string>{"a", "b c", "", "de f"});
}
