// Melodies in the twelve notes of the staff: church modes, keys, and what other traditions write
// there. The tunes are old and their sources named; what they are in is what the sources say.

#include <sectio/identify/identify.hpp>
#include <sectio/interval/pitch.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>

using namespace sectio;

namespace {

/// Written notes such as "E4 F#4:2 Bb4", a quarter each or as many as stand behind the colon; a bar
/// ends a phrase.
Melody written(const std::string& notes) {
    Melody melody;
    melody.zero = MelodyZero::written;
    melody.in_time = true;
    std::istringstream words(notes);
    for (std::string word; words >> word;) {
        if (word == "|") {
            melody.notes.back().ends_phrase = true;
            continue;
        }
        constexpr int keys[]{9, 11, 0, 2, 4, 5, 7};
        int key = keys[word[0] - 'A'];
        key += word[1] == '#' ? 1 : word[1] == 'b' ? -1 : 0;
        const std::size_t octave = word.find_first_of("0123456789");
        const std::size_t colon = word.find(':');
        WeightedPitch note;
        note.interval = Interval::octave() * Rational(key + 12 * (word[octave] - '0' - 4), 12);
        note.weight = Rational(colon == std::string::npos ? 1 : word[colon + 1] - '0');
        melody.notes.push_back(note);
    }
    melody.notes.back().ends_phrase = true;
    return melody;
}

Identification named(const Melody& melody,
                     const ScaleLibrary& library = ScaleLibrary::installed()) {
    IdentifyOptions options;
    options.show = 100;
    return identify(melody, library, options);
}

std::string first(const Identification& answer) {
    REQUIRE_FALSE(answer.candidates.empty());
    return answer.candidates[0].scale->entry.id;
}

double probability(const Identification& answer, const std::string& id) {
    for (const Candidate& c : answer.candidates)
        if (c.scale->entry.id == id)
            return c.probability;
    return 0;
}

// The Liber Usualis (1961), p. 1504, mode 2: the tune that named ut re mi.
const char* const ut_queant_laxis =
    "C4 D4 F4 D4 E4 D4:2 | D4 D4 C4 D4 E4 E4:2 | E4 F4 G4 E4 D4 E4 C4 D4:2 | F4 G4 A4 G4 F4 D4 "
    "D4:2 | G4 A4 G4 F4 E4 F4 G4 D4:2 | A4 G4 A4 F4 G4 A4 A4:2 | G4 F4 E4 D4 C4 E4 D4:2";
// Liber Usualis, introit of the second Sunday of Advent, mode 7: the antiphon, without its verse.
const char* const populus_sion =
    "G4 C5 C5 D5 C5 C5 C5 D5 C5 B4 C5:2 | C5 D5 C5 D5 G4:2 G4:2 A4 B4 C5 C5 D5 C5 C5 D5 B4 D5 C5 "
    "C5:2 | D5 C5 D5 B4 A4 G4 B4 C5 B4 A4 B4 G4 A4 G4 G4:2 | G4 C5 C5 C5 D5 D5 F5 E5 F5 D5 D5 D5 "
    "D5 E5 D5 C5 D5 D5 C5 D5 C5 A4 | C5 D5 E5 E5 D5 F5 E5 D5 D5 E5 E5:2 D5 E5 F5 E5 D5 D5 E5 D5 "
    "D5:2 | G4 G4 A4 C5 C5 C5 D5 E5 C5 D5 B4 C5 D5 E5 D5 C5 D5 C5 C5 A4 B4 C5 G4 A4 G4 G4";
// Genevan Psalter (1551), Psalm 134, as hymnals print it.
const char* const old_hundredth =
    "G4:2 G4 F#4 E4 D4 G4 A4 B4:2 | B4:2 B4 B4 A4 G4 C5 B4 A4:2 | G4:2 A4 B4 A4 G4 E4 F#4 G4:2 | "
    "D5:2 B4 G4 A4 C5 B4 A4 G4:4";
// English carol, as W. Sandys prints its tune (1833), in E minor (from memory).
const char* const god_rest_you =
    "E4 E4 B4 B4 A4 G4 F#4 E4 D4 E4 F#4 G4 A4 B4:3 | E4 E4 B4 B4 A4 G4 F#4 E4 D4 E4 F#4 G4 A4 B4:3 "
    "| B4 C5 A4 B4 C5 D5 E5 B4 A4 G4 E4 F#4 G4 A4:2 G4 A4 B4:2 | C5 B4 B4 A4 G4 F#4 E4:2";
// Sea song in the Dorian mode on D (common practice, no source).
const char* const drunken_sailor =
    "A4:2 A4 A4 A4:2 A4 A4 A4:2 D4:2 F4:2 A4:2 | G4:2 G4 G4 G4:2 G4 G4 G4:2 C4:2 E4:2 G4:2 | A4:2 "
    "A4 A4 A4:2 A4 A4 A4:2 B4:2 C5:2 D5:2 | C5:2 A4:2 G4:2 E4:2 D4:4 D4:4";
// The first exercise of Karnatak pupils, up and down Māyāmāḷavagauḷa from Sa (common practice).
const char* const first_exercise =
    "C4 Db4 E4 F4 G4 Ab4 B4 C5:2 | C5 B4 Ab4 G4 F4 E4 Db4 C4:2 | C4 Db4 E4 F4 G4 Ab4 B4 C5:2 | C5 "
    "B4 Ab4 G4 F4 E4 Db4 C4:2";

} // namespace

TEST_CASE("A chant is named by its mode: final, reciting tone and ambitus") {
    const auto plagal = named(written(ut_queant_laxis));
    CHECK(first(plagal) == "church-hypodorian");
    CHECK(plagal.candidates[0].tonic == "D");
    CHECK(probability(plagal, "church-hypodorian") > 3 * probability(plagal, "church-dorian"));
    const auto authentic = named(written(populus_sion));
    CHECK(first(authentic) == "church-mixolydian");
    CHECK(authentic.candidates[0].tonic == "G");
    CHECK(probability(authentic, "church-mixolydian")
          > 3 * probability(authentic, "church-hypomixolydian"));
}

TEST_CASE("A tune in a key is named by the key, and no makam in twelve notes") {
    const auto major = named(written(old_hundredth));
    CHECK(first(major) == "major");
    CHECK(major.candidates[0].tonic == "G");
    const auto minor = named(written(god_rest_you));
    CHECK(first(minor) == "natural-minor");
    CHECK(minor.candidates[0].tonic == "E");
    const auto dorian = named(written(drunken_sailor));
    CHECK(probability(dorian, "church-dorian") + probability(dorian, "dorian") > 0.9);
    for (const auto& answer : {major, minor, dorian})
        for (const Candidate& c : answer.candidates)
            if (c.scale->entry.tradition() == "Turkish makam")
                CHECK(c.probability < 0.01);
}

TEST_CASE("A thaat, a melakarta and a maqam of the same notes are named together, as equals") {
    const auto answer =
        named(written("C4 Db4 Eb4 F#4 G4:2 Ab4 B4 C5:2 | B4 Ab4 G4 F#4 Eb4 Db4 C4:2"));
    CHECK(answer.verdict == Verdict::ambiguous);
    std::vector<std::string> ids;
    for (const Candidate& c : answer.candidates)
        if (c.named)
            ids.push_back(c.scale->entry.id);
    std::sort(ids.begin(), ids.end());
    CHECK(ids == std::vector<std::string>{"maqam-athar-kurd", "shubhapantuvarali", "thaat-todi"});
}

/// Up and down two octaves of a key.
std::string exercise(const std::string& up, const std::string& down) {
    return up + ":2 | " + down + ":2 | " + up + ":2 | " + down + ":4";
}

TEST_CASE("A key is spelled with few signs") {
    const auto d_flat =
        named(written(exercise("Db4 Eb4 F4 Gb4 Ab4 Bb4 C5 Db5", "Db5 C5 Bb4 Ab4 Gb4 F4 Eb4 Db4")));
    CHECK(first(d_flat) == "major");
    CHECK(d_flat.candidates[0].tonic == "D♭");
    const auto c_sharp =
        named(written(exercise("C#4 D#4 E4 F#4 G#4 A4 B4 C#5", "C#5 B4 A4 G#4 F#4 E4 D#4 C#4")));
    CHECK(first(c_sharp) == "natural-minor");
    CHECK(c_sharp.candidates[0].tonic == "C♯");
}

TEST_CASE("A tune that was measured is in major, too, and has no key") {
    Melody heard = written(old_hundredth);
    heard.zero = MelodyZero::free;
    for (std::size_t i = 0; i < heard.notes.size(); ++i)
        heard.notes[i].interval += Interval::octave() * Rational(i % 2 == 0 ? 3 : -2, 1200);
    const auto answer = named(heard);
    CHECK(first(answer) == "major");
    CHECK(answer.candidates[0].tonic.empty());
}

TEST_CASE("Scales of one set of notes in several traditions are named together") {
    const auto all = named(written(first_exercise));
    CHECK(all.verdict == Verdict::ambiguous);
    for (const char* id : {"mayamalavagaula", "thaat-bhairav", "double-harmonic"}) {
        CAPTURE(id);
        CHECK(probability(all, id) > 0.1);
    }
    const ScaleLibrary library = ScaleLibrary::installed().among({"karnatak"});
    const auto karnatak = named(written(first_exercise), library);
    CHECK(first(karnatak) == "mayamalavagaula");
    CHECK(karnatak.verdict == Verdict::fits);
}

TEST_CASE("Notes of the staff that go beyond a hexachord are not named by it") {
    CHECK(probability(named(written(old_hundredth)), "guidonian-hexachord") < 0.001);
}
