#include <support/errors.hpp>
#include <support/intervals.hpp>

using sectio::Interval;
using sectio::Pitch;
using sectio::Rational;
using support::interval;
using support::pitch;

TEST_CASE("Pitches and intervals add up") {
    CHECK(pitch("440Hz") + interval("3/2") == pitch("660Hz"));
    CHECK(pitch("440Hz") - interval("3/2") + interval("3/2") == pitch("440Hz"));
    CHECK(pitch("660Hz") - pitch("440Hz") == interval("3/2"));
    CHECK(pitch("A5") - pitch("A4") == Interval::octave());
    CHECK(pitch("C4") - pitch("A4") == interval("-9of12"));
    CHECK(pitch("A4") < pitch("440.0000000001Hz"));
    CHECK(pitch("A4") == Pitch::concert_a());
    CHECK(Pitch::from_hertz(Rational(2616255653, 10000000)) < pitch("C4"));
    CHECK(pitch("A4").hertz_estimate() == Approx(440));
}

TEST_CASE("The nearest key and the rest; half way the lower key") {
    struct Row {
        const char* pitch;
        int key;
        const char* deviation;
    };
    const Row row = GENERATE(values<Row>({{"A4", 69, "0c"},
                                          {"C4", 60, "0c"},
                                          {"C-1", 0, "0c"},
                                          {"G9", 127, "0c"},
                                          {"G-2", -5, "0c"},
                                          {"A4+49.999c", 69, "49.999c"},
                                          {"A4+50c", 69, "50c"},
                                          {"A4+50.0000000001c", 70, "-49.9999999999c"},
                                          {"A4-50c", 68, "50c"},
                                          {"A4-49.999c", 69, "-49.999c"},
                                          {"A4+150c", 70, "50c"},
                                          {"A\U0001D1324", 69, "50c"}}));
    INFO(row.pitch);
    const sectio::KeyedPitch keyed = sectio::nearest_key(pitch(row.pitch));
    CHECK(keyed.key == row.key);
    CHECK(keyed.deviation == interval(row.deviation));
}

TEST_CASE("A pitch that is in no equal step has a key too") {
    // 3/2 above A4 = 440 Hz is E5 and 1.955 cents; 5/4 is C#5 less 13.686 cents.
    const auto fifth = sectio::nearest_key(pitch("660Hz"));
    CHECK(fifth.key == 76);
    CHECK(fifth.deviation.cents(3) == "1.955");
    const auto third = sectio::nearest_key(pitch("550Hz"));
    CHECK(third.key == 73);
    CHECK(third.deviation.cents(3) == "-13.686");
    const auto at_415 = sectio::nearest_key(pitch("415Hz"), pitch("415Hz"));
    CHECK(at_415.key == 69);
    CHECK(at_415.deviation.is_unison());
}

TEST_CASE("Keys, their pitches and their usual names agree") {
    for (int key = -20; key <= 140; ++key) {
        const sectio::NoteInOctave note = sectio::usual_note(key);
        INFO(note.text());
        CHECK(sectio::key_of(note) == key);
        CHECK(sectio::pitch_of_key(key) == pitch(note.text()));
        CHECK(pitch(note.text(true)) == pitch(note.text()));
        CHECK(sectio::nearest_key(sectio::pitch_of_key(key)).key == key);
    }
    CHECK(sectio::usual_note(60).text() == "C4");
    CHECK(sectio::usual_note(61).text(true) == "C♯4");
    CHECK(sectio::usual_note(63).text(true) == "E♭4");
    CHECK(sectio::usual_note(0).text() == "C-1");
    CHECK(sectio::usual_note(-1).text() == "B-2");
}

TEST_CASE("A key spelled with a letter") {
    struct Row {
        int key;
        char letter;
        const char* note;
    };
    const Row row = GENERATE(values<Row>({{60, 'C', "C4"},
                                          {60, 'B', "B#3"},
                                          {60, 'D', "Dbb4"},
                                          {60, 'A', nullptr},
                                          {59, 'C', "Cb4"},
                                          {61, 'B', "B##3"},
                                          {66, 'F', "F#4"},
                                          {66, 'G', "Gb4"},
                                          {66, 'E', "E##4"},
                                          {66, 'A', nullptr},
                                          {72, 'B', "B#4"},
                                          {0, 'C', "C-1"},
                                          {60, 'H', nullptr}}));
    const auto note = sectio::note_with_letter(row.key, row.letter);
    CHECK(note.has_value() == (row.note != nullptr));
    if (note) {
        CHECK(note->text() == row.note);
        CHECK(sectio::key_of(*note) == row.key);
    }
}

TEST_CASE("Pitches out of reach are refused") {
    using support::error_of;
    using support::name_of;
    CHECK(name_of(error_of([] { Pitch::from_hertz(Rational(0)); })) == "frequency_not_positive");
    CHECK(name_of(error_of([] { Pitch::from_hertz(Rational(-1)); })) == "frequency_not_positive");
    CHECK(name_of(error_of([] { pitch("A4") + interval("2^70"); })) == "pitch_out_of_range");
    CHECK(name_of(error_of([] { pitch("A4") - interval("2^80"); })) == "pitch_out_of_range");
    CHECK_FALSE(error_of([] { pitch("A4") + interval("2^55"); }));
}
