// Notes that are read alike are read once; those that differ in anything that matters are not.

#include <sectio/score/note_classes.hpp>

#include <catch2/catch.hpp>

#include <functional>

using namespace sectio;
using namespace sectio::score;

namespace {

/// Two of everything that a note may refer to.
Score two_of_each() {
    Score score;
    score.spellings = {{'C', no_sign, {}}, {'D', no_sign, {}}};
    score.keys.resize(2);
    score.transpositions.resize(2);
    return score;
}

} // namespace

TEST_CASE("Notes that differ in what is read of them are of different classes") {
    const Score score = two_of_each();
    Reading reading;
    reading.signature = Signature::practised;
    reading.grace_signs_lost = true;
    const std::pair<const char*, std::function<void(Note&)>> changes[] = {
        {"spelling", [](Note& n) { n.spelling = 1; }},
        {"tie", [](Note& n) { n.tied = 1; }},
        {"transposition", [](Note& n) { n.transposition = 1; }},
        {"key", [](Note& n) { n.key = 1; }},
        {"octave above", [](Note& n) { n.octave = 5; }},
        {"octave below", [](Note& n) { n.octave = 3; }},
        {"lowest octave", [](Note& n) { n.octave = 0; }},
        {"grace note", [](Note& n) { n.flags = Note::grace; }},
        {"grace note above", [](Note& n) { n.octave = 5, n.flags = Note::grace; }},
        {"grace note below", [](Note& n) { n.octave = 3, n.flags = Note::grace; }},
    };
    NoteClasses classes(score, reading, PitchKind::sounding);
    CHECK(classes.of(Note{}) == 0);
    std::uint32_t next = 1;
    for (const auto& [what, change] : changes) {
        CAPTURE(what);
        Note note;
        change(note);
        CHECK(classes.of(note) == next);
        CHECK(classes.of(note) == next++);
    }
    CHECK(classes.of(Note{}) == 0);
    CHECK(std::get<WrittenPitch>(classes[5].written).octave == 5);
    CHECK(std::get<WrittenPitch>(classes[6].written).octave == 3);
}

TEST_CASE("What is not read of notes does not part them") {
    const Score score = two_of_each();
    const Reading reading;
    NoteClasses classes(score, reading, PitchKind::sounding);
    Note other;
    other.key = 1;             // matters only where the signature is as practised
    other.flags = Note::grace; // matters only where signs of grace notes are lost
    other.voice = 2, other.measure = 7, other.part = 1;
    CHECK(classes.of(Note{}) == 0);
    CHECK(classes.of(other) == 0);
    CHECK(classes.all().size() == 1);
}
