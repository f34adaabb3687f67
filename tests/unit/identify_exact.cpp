// What fits exactly comes before what fits within practice.

#include <sectio/identify/identify.hpp>
#include <sectio/scale/reading.hpp>

#include <catch2/catch.hpp>

#include <cmath>

using namespace sectio;

namespace {

/// The seven white keys of a tuning of twelve notes from C.
Melody white_keys(const Entry& system) {
    Melody set;
    for (const std::size_t key : {0U, 2U, 4U, 5U, 7U, 9U, 11U}) {
        WeightedPitch pitch;
        pitch.interval = system.scale()->degrees[key].interval;
        set.notes.push_back(pitch);
    }
    return set;
}

/// The probability of the candidates that have all pitches where they are.
double exact_share(const Identification& answer) {
    double share = 0;
    for (const Candidate& c : answer.candidates)
        if (c.matched == c.of && std::abs(c.worst_cents) < 0.01)
            share += c.probability;
    return share;
}

} // namespace

TEST_CASE("Seven exact notes of a tuning are named by scales that have them exactly") {
    IdentifyOptions options;
    options.show = 100;
    std::size_t tried = 0;
    for (const Entry& entry : Catalogue::installed().all()) {
        if (entry.kind() != EntryKind::system || entry.tradition() != "European keyboard"
            || !entry.scale() || entry.scale()->degrees.size() != 12)
            continue;
        CAPTURE(entry.id);
        const auto answer = identify(white_keys(entry), ScaleLibrary::installed(), options);
        REQUIRE_FALSE(answer.candidates.empty());
        CHECK(std::abs(answer.candidates[0].worst_cents) < 0.01);
        CHECK(exact_share(answer) > 0.99);
        ++tried;
    }
    CHECK(tried > 30);
}

TEST_CASE("Notes of a system of many degrees are named by it where they are a few cents off") {
    const Melody set = to_melody(parse_pitches(
        "-1.21c, 76.37c, 228.94c, 347.45c, 389.51c, 426.02c, 461.79c, 501.83c, 539.3c, 581.86c, "
        "848.22c, 889.15c, 962.28c, 1122.82c")); // of 31 equal steps, each up to 5 cents off
    IdentifyOptions options;
    options.tonic.kind = KnownTonic::Kind::known;
    const auto answer = identify(set, ScaleLibrary::installed(), options);
    CHECK(answer.verdict != Verdict::none);
    CHECK(answer.candidates[0].scale->degrees.size() == 31);
}

TEST_CASE("Notes that are exact but for one are named by practice") {
    Melody set = white_keys(*Catalogue::installed().find("pythagorean-12"));
    set.notes[2].interval += Interval::octave() * Rational(7, 1200);
    const auto answer = identify(set, ScaleLibrary::installed());
    CHECK(answer.candidates[0].matched == 7);
}
