// What the progression of a melody says where the pitches are the same. The melodies are made up
// for these tests, after what theory says of the makams.

#include "support/errors.hpp"
#include "support/intervals.hpp"

#include <sectio/identify/cents.hpp>
#include <sectio/identify/heard.hpp>
#include <sectio/identify/identify.hpp>
#include <sectio/identify/progression.hpp>
#include <sectio/identify/stage_table.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>

using namespace sectio;

namespace {

/// A note as steps of 53 above Dügâh and a length.
struct Step {
    int commas, length;
};

/// Written notes, Dügâh being A4.
Melody written(const std::vector<Step>& steps) {
    Melody melody;
    melody.zero = MelodyZero::written;
    melody.in_time = true;
    for (const Step& s : steps) {
        WeightedPitch note;
        note.interval = Interval::octave() * Rational(Integer(s.commas + 40), Integer(53));
        note.weight = Rational(s.length);
        melody.notes.push_back(note);
    }
    melody.notes.back().ends_phrase = true;
    return melody;
}

std::vector<Step> joined(std::vector<std::vector<Step>> parts) {
    std::vector<Step> all;
    for (const auto& part : parts)
        all.insert(all.end(), part.begin(), part.end());
    return all;
}

double probability(const Identification& answer, const std::string& id) {
    for (const Candidate& c : answer.candidates)
        if (c.scale->entry.id == id)
            return c.probability;
    return 0;
}

Identification named(const Melody& melody) {
    IdentifyOptions options;
    options.show = 100;
    static const ScaleLibrary turkish = ScaleLibrary::installed().among({"turkish"});
    return identify(melody, turkish, options);
}

const std::vector<Step> about_octave{{53, 4}, {44, 1}, {53, 1}, {61, 2}, {53, 2}, {66, 2},
                                     {61, 1}, {53, 4}, {44, 1}, {39, 1}, {44, 2}, {53, 4}};
const std::vector<Step> about_fifth{{31, 4}, {22, 1}, {31, 1}, {39, 2}, {31, 2}, {44, 2},
                                    {39, 1}, {31, 4}, {22, 1}, {31, 1}, {39, 2}, {31, 4}};
const std::vector<Step> about_tonic{{0, 4}, {8, 1}, {0, 1},  {8, 2}, {13, 2}, {8, 2},
                                    {0, 4}, {8, 1}, {13, 1}, {8, 2}, {0, 4}};
const std::vector<Step> down{{31, 2}, {22, 2}, {13, 2}, {22, 1}, {13, 1}, {8, 2},
                             {13, 1}, {8, 1},  {0, 4},  {13, 1}, {8, 1},  {0, 6}};

} // namespace

TEST_CASE("Of makams with the same pitches the opening tells Muhayyer from Hüseynî") {
    const auto descending = named(written(joined({about_octave, about_octave, about_fifth, down})));
    CHECK(probability(descending, "muhayyer") > probability(descending, "huseyni"));
    const auto turning = named(written(joined({about_fifth, about_fifth, about_octave, down})));
    CHECK(probability(turning, "huseyni") > probability(turning, "muhayyer"));
}

TEST_CASE("A melody that opens about its tonic is Uşşak rather than Beyâtî") {
    const std::vector<Step> fourth{{22, 4}, {13, 1}, {22, 2}, {31, 1}, {35, 1}, {31, 1}, {22, 4}};
    const auto ascending = named(written(joined({about_tonic, about_tonic, fourth, down})));
    CHECK(probability(ascending, "ussak") > probability(ascending, "beyati"));
    const auto turning = named(written(joined({fourth, fourth, about_tonic, down})));
    CHECK(probability(turning, "beyati") > probability(turning, "ussak"));
}

TEST_CASE("A melody begins in the first twentieth of its time, and opens in more than a quarter") {
    std::vector<Step> steps(100, {0, 1});
    std::fill_n(steps.begin(), 5, Step{53, 1});
    steps[27].commas = 22;
    steps[28].commas = 31;
    const Progression progression = progression_of(written(steps));
    REQUIRE(progression.stage(Stage::beginning).shares.size() == 1);
    CHECK(progression.stage(Stage::beginning).shares[0].bin == 4 * (53 + 40));
    CHECK(progression.stage(Stage::opening).shares.size() == 3); // the note at 28 is behind it
}

// Hicaz takes Acem for Eviç in descent, and its name is used for the whole family:
// telsanatlari-hicaz.
TEST_CASE("Hicaz with Acem is named Hicaz before Hümâyûn") {
    const std::vector<Step> hicaz{{22, 4}, {17, 1}, {22, 2}, {31, 1}, {35, 1}, {31, 1}, {22, 4},
                                  {31, 1}, {35, 1}, {44, 2}, {35, 1}, {31, 1}, {22, 3}};
    const std::vector<Step> close{{17, 2}, {5, 2}, {0, 4}, {17, 1}, {5, 1}, {0, 6}};
    const auto answer = named(written(joined({hicaz, hicaz, close})));
    CHECK(answer.candidates.front().scale->entry.id == "hicaz");
    CHECK(probability(answer, "hicaz") > probability(answer, "humayun"));
    CHECK(probability(answer, "hicaz-with-acem") == 0); // a form of Hicaz, and one answer with it
}

TEST_CASE("A tonic that is not written where theory puts it speaks against a makam") {
    Melody moved = written(joined({about_fifth, about_fifth, down}));
    for (WeightedPitch& note : moved.notes)
        note.interval += support::interval("9of53");
    const auto at_home = named(written(joined({about_fifth, about_fifth, down})));
    CHECK(probability(at_home, "huseyni") > 0.2);
    CHECK(probability(named(moved), "huseyni") < probability(at_home, "huseyni"));
}

TEST_CASE("A pitch track becomes notes at their medians, and jumps are none") {
    Melody track;
    track.in_time = true;
    const auto add = [&](double cents) {
        WeightedPitch moment;
        moment.interval = Interval::from_cents(Rational(std::lround(cents * 10), 10));
        track.notes.push_back(moment);
    };
    for (int i = 0; i < 300; ++i)
        add(i % 3 == 0 ? -12.3 : i % 3 == 1 ? 3.1 : 20.7);
    add(431.7); // one moment in a slide
    for (int i = 0; i < 300; ++i)
        add(702.4 + i % 2);
    const Melody notes = notes_of_track(track);
    REQUIRE(notes.notes.size() == 2);
    CHECK(notes.notes[0].interval == support::interval("3.1c"));
    CHECK(notes.notes[0].weight == Rational(300));
    CHECK(notes.notes[1].weight == Rational(300));
    track.notes.resize(400);
    CHECK(notes_of_track(track).notes.size() == 400); // too short to be a track
}

TEST_CASE("What was heard may lie in any octave of a tonic that is named") {
    Melody heard = written(joined({about_fifth, about_fifth, down}));
    heard.zero = MelodyZero::free;
    double off = 0.3;
    for (WeightedPitch& note : heard.notes) // a few cents off, as ears and hands are
        note.interval += Interval::from_cents(Rational(std::lround(10 * (off = 5 - off)), 10))
                         - support::interval("40of53");
    REQUIRE(is_heard(heard));
    IdentifyOptions options;
    options.tonic.kind = KnownTonic::Kind::known;
    options.show = 100;
    const ScaleLibrary turkish = ScaleLibrary::installed().among({"turkish"});
    for (const char* octave : {"0c", "1200c", "-1200c"}) {
        CAPTURE(octave);
        options.tonic.at = support::interval(octave) - reference_of(heard);
        const auto answer = identify(heard, turkish, options);
        CHECK(probability(answer, "huseyni") > 0.1);
        for (const Candidate& c : answer.candidates) // nothing on another note
            CHECK(std::abs(std::remainder(c.tonic_cents + 31 * 1200.0 / 53, 1200)) < 60);
    }
}

TEST_CASE(
    "What was heard lies where performers sound a degree, what is written where theory does") {
    static const ScaleLibrary library = ScaleLibrary::installed().among({"ussak"});
    const auto& scales = library.scales();
    const auto ussak = std::find_if(scales.begin(), scales.end(),
                                    [](const LibraryScale& s) { return s.entry.id == "ussak"; });
    REQUIRE(ussak != scales.end());
    CHECK(ussak->degrees[1] == Approx(8 * 1200 / 53.0));
    CHECK(ussak->sounded[1] == Approx(6.5 * 1200 / 53)); // one or two commas lower
    CHECK(ussak->sounded[2] == ussak->degrees[2]);
    const auto segah = bin_of(8 * 1200 / 53.0), lower = bin_of(6.5 * 1200 / 53);
    const StageTable heard = stage_tables(*ussak, heard_strengths)[0]; // of the whole
    CHECK(heard.at(lower) > heard.at(segah));
    const StageTable written = stage_tables(*ussak, written_strengths)[0];
    CHECK(written.at(segah) > written.at(lower));
}

// What the sources beside `practised` in data/catalogue say, in commas of 53: the middle of what is
// taught, of the degrees with these numbers.
TEST_CASE("Every degree that performers are taught to move is looked for where they sound it") {
    struct Moved {
        std::size_t degree;
        double commas;
    };
    std::map<std::string, Moved> expected{
        {"saba", {4, 1.5}}, {"bestenigar", {6, 1.5}}, {"huzzam", {4, 1}}};
    for (const char* id : {"ussak", "beyati", "huseyni", "neva", "karcigar", "muhayyer", "tahir",
                           "gerdaniye", "acem", "isfahan", "gulizar", "beyati-araban"})
        expected[id] = {2, -1.5};
    std::size_t moved = 0;
    for (const LibraryScale& scale : ScaleLibrary::installed().scales()) {
        const auto found = expected.find(scale.entry.id);
        moved += found != expected.end();
        for (std::size_t i = 0; i < scale.degrees.size(); ++i) {
            INFO(scale.entry.id << " degree " << i + 1);
            const bool here = found != expected.end() && found->second.degree == i + 1;
            const double by = here ? found->second.commas * 1200 / 53 : 0;
            CHECK(scale.sounded[i] - scale.degrees[i] == Approx(by).margin(1e-9));
        }
    }
    CHECK(moved == expected.size());
}

TEST_CASE("A tonic that is named some cents off is found") {
    Melody heard = written(joined({about_fifth, about_fifth, about_fifth, down, down}));
    heard.zero = MelodyZero::free;
    double off = 0.3;
    for (WeightedPitch& note : heard.notes)
        note.interval += Interval::from_cents(Rational(std::lround(10 * (off = 5 - off)), 10))
                         - support::interval("40of53");
    IdentifyOptions options;
    options.tonic.kind = KnownTonic::Kind::known;
    options.show = 100;
    const ScaleLibrary turkish = ScaleLibrary::installed().among({"turkish"});
    const auto named_at = [&](const char* tonic) {
        options.tonic.at = support::interval(tonic) - reference_of(heard);
        return identify(heard, turkish, options);
    };
    const auto right = named_at("3c"), wrong = named_at("23c");
    CHECK(probability(right, "huseyni") > 0.1);
    CHECK(probability(wrong, "huseyni") > 0.7 * probability(right, "huseyni"));
    for (const Candidate& c : wrong.candidates)
        if (c.scale->entry.id == "huseyni") // the true place, within a step of the search
            CHECK(std::abs(std::remainder(c.tonic_cents + cents_of(reference_of(heard)) - 3, 1200))
                  < 12);
}

TEST_CASE("By ear, too, what holds most of the works is more probable than its twin") {
    Entry twin = *Catalogue::installed().find("huseyni"), other = twin;
    twin.id = "twin";
    std::get<ScaleFacts>(twin.facts).most_used = true;
    const ScaleLibrary both({other, twin});
    Melody melody = written(joined({about_fifth, about_fifth, down}));
    const auto ratio = [&] {
        const Identification answer = identify(melody, both, {});
        return probability(answer, "twin") / probability(answer, "huseyni");
    };
    // What is written counts three times as much or for 0.6, by the share of its notes that may
    // count.
    double mean = 0;
    const double length = static_cast<double>(melody.notes.size()) / 54;
    for (const double counts_for : {3.0, 0.6})
        mean += 0.5 / (1 + std::exp(-1.66 * std::pow(counts_for, length)));
    CHECK(ratio() == Approx(mean / (1 - mean)).epsilon(0.01));
    melody.zero = MelodyZero::free;
    double off = 0.3;
    for (WeightedPitch& note : melody.notes)
        note.interval += Interval::from_cents(Rational(std::lround(10 * (off = 5 - off)), 10));
    CHECK(ratio() == Approx(std::exp(1.0)));
}

TEST_CASE("The final of what is in time may be the tonic however short, and once") {
    const int high = bin_of(93 * 1200 / 53.0), low = bin_of(40 * 1200 / 53.0);
    Melody melody = written({{0, 1}, {53, 300}, {0, 1}}); // the low note is too short otherwise
    std::vector<int> tonics = possible_tonics(progression_of(melody));
    CHECK(tonics == std::vector<int>{high, low});
    melody = written({{0, 300}, {53, 300}});
    CHECK(possible_tonics(progression_of(melody)) == std::vector<int>{low, high});
    melody.in_time = false; // a set of pitches has no final
    CHECK(possible_tonics(progression_of(melody)) == std::vector<int>{low, high});
    melody = written({{0, 1}, {53, 300}, {0, 1}});
    melody.in_time = false;
    CHECK(possible_tonics(progression_of(melody)) == std::vector<int>{high});
}

TEST_CASE("A degree's number goes on beyond the octave") {
    static const ScaleLibrary turkish = ScaleLibrary::installed().among({"turkish"});
    const auto rast = std::find_if(turkish.scales().begin(), turkish.scales().end(),
                                   [](const LibraryScale& s) { return s.entry.id == "rast"; });
    REQUIRE(rast != turkish.scales().end());
    CHECK(degree_cents(*rast, 1) == 0);
    CHECK(degree_cents(*rast, 5) == Approx(31 * 1200 / 53.0));
    CHECK(degree_cents(*rast, 7) == Approx(48 * 1200 / 53.0));
    CHECK(degree_cents(*rast, 8) == Approx(1200));
    CHECK(degree_cents(*rast, 10) == Approx(1200 + 17 * 1200 / 53.0));
    CHECK(degree_cents(*rast, 15) == Approx(2400));
}

TEST_CASE("A tonic within a bin of where it is written is said to stand there") {
    const ScaleLibrary turkish = ScaleLibrary::installed().among({"turkish"});
    const auto scale =
        std::find_if(turkish.scales().begin(), turkish.scales().end(),
                     [](const LibraryScale& s) { return s.written_tonic.has_value(); });
    REQUIRE(scale != turkish.scales().end());
    Progression progression;
    progression.written = true;
    const auto said = [&](int bins_away) {
        return progression_text(progression, *scale, bin_of(*scale->written_tonic) + bins_away, {})
            .front();
    };
    for (const int near : {-1, 0, 1})
        CHECK_THAT(said(near), Catch::Contains("the tonic is written as"));
    for (const int far : {-2, 2})
        CHECK_THAT(said(far), Catch::Contains("the tonic is not written as"));
}
