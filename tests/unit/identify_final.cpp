// What the last note says of the tonic, and what a note counts for. The melodies are made up.

#include <sectio/identify/progression.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

using namespace sectio;

namespace {

/// Notes by their cents and their lengths.
Melody melody_of(const std::vector<std::pair<int, int>>& notes, MelodyZero zero) {
    Melody melody;
    melody.zero = zero;
    melody.in_time = true;
    for (const auto& [cents, length] : notes) {
        WeightedPitch note;
        note.interval = Interval::from_cents(Rational(cents));
        note.weight = Rational(length);
        melody.notes.push_back(note);
    }
    return melody;
}

const LibraryScale& huseyni() {
    static const ScaleLibrary turkish = ScaleLibrary::installed().among({"turkish"});
    return *std::ranges::find_if(
        turkish.scales(), [](const LibraryScale& scale) { return scale.entry.id == "huseyni"; });
}

double final_note(const Progression& progression, int bins_away) {
    return progression_evidence(progression, huseyni(),
                                stage_tables(huseyni(), progression.strengths()),
                                progression.final_bin + bins_away)
        .final_note;
}

} // namespace

TEST_CASE("By ear the last note may lie beside the tonic, or an octave from it") {
    Progression progression =
        progression_of(melody_of({{1031, 2}, {507, 3}, {303, 1}, {2, 4}}, MelodyZero::free));
    REQUIRE(progression.heard);
    CHECK(final_note(progression, 0) == Approx(0).margin(0.01));
    CHECK(final_note(progression, 8) == Approx(-0.5).margin(0.02)); // 45 cents
    CHECK(final_note(progression, bins_per_octave) == Approx(-1).margin(0.02));
    CHECK(final_note(progression, 80) == Approx(-6).margin(0.02));
    progression.tonic_said = true; // then it decides the octave, and nothing else
    CHECK(final_note(progression, 0) == 0);
    CHECK(final_note(progression, bins_per_octave) == -6);
}

TEST_CASE("Where it is written the last note is the tonic or is not") {
    const Progression progression =
        progression_of(melody_of({{1200, 4}, {906, 1}}, MelodyZero::written));
    REQUIRE_FALSE(progression.heard);
    CHECK(final_note(progression, 0) == 0);
    CHECK(final_note(progression, 8) == -6);
}

TEST_CASE("Of a whole melody written in commas a note is worth the root of its time") {
    const auto first_share = [](const Melody& melody) {
        return progression_of(melody).stage(Stage::whole).shares.front().share;
    };
    Melody melody = melody_of({{906, 4}, {1132, 1}}, MelodyZero::written);
    CHECK(first_share(melody) == Approx(2 / 3.0));
    CHECK(progression_of(melody).by_time.shares.front().share == Approx(0.8));
    melody.in_time = false; // a count is a count
    CHECK(first_share(melody) == Approx(0.8));
    melody = melody_of({{906, 4}, {1132, 1}}, MelodyZero::free);
    REQUIRE(progression_of(melody).heard);
    CHECK(first_share(melody) == Approx(0.8));
}

TEST_CASE("What a course dwells on is worth less than a second dominant") {
    Entry entry = huseyni().entry; // dwells on its third degree
    const auto at_third = [](const Entry& of) {
        const ScaleLibrary library({of});
        return stage_tables(library.scales().front(), written_strengths)[0].at(
            bin_of(13 * 1200 / 53.0));
    };
    MelodicProgression& progression = std::get<ScaleFacts>(entry.facts).progression;
    const double dwelt = at_third(entry);
    progression.second_dominant = progression.dwells_on;
    const double second = at_third(entry);
    progression.second_dominant = progression.dwells_on = std::nullopt;
    const double ordinary = at_third(entry);
    CHECK(second > dwelt);
    CHECK(dwelt > ordinary);
}
