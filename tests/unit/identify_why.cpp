// Why one makam and not its twin. The melodies are made up after what theory says of the makams:
// Uşşak opens about Dügâh, Beyâtî about Nevâ (eksd-makam).

#include "support/intervals.hpp"

#include <sectio/identify/identify.hpp>
#include <sectio/identify/identify_page.hpp>
#include <sectio/identify/progression.hpp>
#include <sectio/print/print.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <memory>

using namespace sectio;

namespace {

/// Eight notes a bar, `opening` twice and a way down to Dügâh; commas above Dügâh, which is A4.
Melody melody(const std::vector<int>& opening) {
    std::vector<int> commas = opening;
    commas.insert(commas.end(), opening.begin(), opening.end());
    for (const int c : {31, 22, 13, 22, 13, 8, 13, 0})
        commas.push_back(c);
    Melody melody;
    melody.zero = MelodyZero::written;
    melody.in_time = true;
    for (std::size_t i = 0; i < commas.size(); ++i) {
        WeightedPitch note;
        note.interval = Interval::from_steps(commas[i] + 40, 53);
        note.bar = std::to_string(i / 8 + 1);
        melody.notes.push_back(note);
    }
    melody.notes.back().ends_phrase = true;
    return melody;
}

/// Among Uşşak and another alone.
Identification named(const Melody& melody, const std::string& other = "beyati") {
    static std::vector<std::unique_ptr<ScaleLibrary>> kept; // answers point into them
    std::vector<Entry> entries;
    for (const Entry& entry : Catalogue::installed().all())
        if (entry.id == "turkish-24" || entry.id == "ussak" || entry.id == other)
            entries.push_back(entry);
    kept.push_back(std::make_unique<ScaleLibrary>(entries));
    return identify(melody, *kept.back());
}

const std::vector<int> about_tonic{0, 0, 8, 0, 8, 13, 8, 0, 0, 13, 8, 0, 22, 13, 8, 0};
const std::vector<int> about_neva{22, 22, 31, 22, 35, 31, 22, 22, 22, 31, 35, 22, 13, 22, 31, 22};

const Reason* by(const Identification& answer, Grounds grounds) {
    for (const Reason& reason : answer.why)
        if (reason.by == grounds)
            return &reason;
    return nullptr;
}

} // namespace

TEST_CASE("Why Uşşak and not Beyâtî: it opens about Dügâh, in these bars") {
    const Identification answer = named(melody(about_tonic));
    REQUIRE(answer.candidates[0].scale->entry.id == "ussak");
    REQUIRE(answer.candidates[1].scale->entry.id == "beyati");
    REQUIRE(answer.why.size() == 2);
    CHECK(answer.why[0].log >= answer.why[1].log);
    const Reason* opening = by(answer, Grounds::opening);
    REQUIRE(opening);
    CHECK(opening->text.find("Uşşak opens about ") != std::string::npos);
    CHECK(opening->text.find("Beyâtî opens about Nevâ") != std::string::npos);
    REQUIRE_FALSE(opening->notes.empty());
    CHECK(std::find(opening->notes.begin(), opening->notes.end(), "Dügâh") != opening->notes.end());
    // 28 % of 40 notes are those of the first bar and half of the second.
    CHECK(opening->bars == std::vector<std::string>{"1", "2"});
}

TEST_CASE("Why Beyâtî and not Uşşak names Nevâ or Acem, and what is said adds up") {
    const Melody notes = melody(about_neva);
    const Identification answer = named(notes);
    REQUIRE(answer.candidates[0].scale->entry.id == "beyati");
    REQUIRE_FALSE(answer.why.empty());
    const Reason* opening = by(answer, Grounds::opening);
    REQUIRE(opening);
    CHECK(std::any_of(opening->notes.begin(), opening->notes.end(),
                      [](const std::string& note) { return note == "Nevâ" || note == "Acem"; }));
    // A reason is the difference of what the stage is worth for both, as progression_text() tells
    // it.
    const LibraryScale &first = *answer.candidates[0].scale, &other = *answer.candidates[1].scale;
    const Progression progression = progression_of(notes);
    const int tonic = 4 * 40;
    const auto evidence = [&](const LibraryScale& scale) {
        return progression_evidence(progression, scale, stage_tables(scale, written_strengths),
                                    tonic);
    };
    CHECK(opening->log
          == Approx(evidence(first).of(Stage::opening) - evidence(other).of(Stage::opening)));
}

TEST_CASE("A note that the other scale lacks is named as that") {
    // Eviç (39 commas), which Hüseynî has and Uşşak has not.
    const Identification answer =
        named(melody({31, 22, 31, 39, 31, 22, 13, 22, 31, 22, 31, 39, 31, 22, 13, 8}), "huseyni");
    REQUIRE(answer.candidates.size() > 1);
    REQUIRE(answer.candidates[0].scale->entry.id == "huseyni");
    REQUIRE_FALSE(answer.why.empty());
    CHECK(std::any_of(answer.why.begin(), answer.why.end(), [](const Reason& reason) {
        return reason.text.find("of which Uşşak lacks Eviç") != std::string::npos;
    }));
}

TEST_CASE("A set of pitches has no such reasons, nor has what fits nothing") {
    Melody set;
    for (const int commas : {0, 8, 13, 22, 31, 39, 44}) {
        WeightedPitch pitch;
        pitch.interval = Interval::from_steps(commas, 53);
        set.notes.push_back(pitch);
    }
    CHECK(identify(set, ScaleLibrary::installed()).why.empty());
}

TEST_CASE("The reasons stand in JSON and for people") {
    const page::Page page = identify_page(named(melody(about_tonic)));
    const std::string json = page::print_json(page), text = page::print_text(page);
    CHECK(json.find("\"why\"") != std::string::npos);
    CHECK(json.find("\"bars\"") != std::string::npos);
    CHECK(text.find("Why Uşşak and not Beyâtî") != std::string::npos);
    CHECK(text.find("(bars 1, 2)") != std::string::npos);
}
