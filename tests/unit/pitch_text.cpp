// Pitches as people write them. Frequencies of 12 equal steps are those of ISO 16:1975 (A4 = 440
// Hz); the decimals below are 440 * 2^(n/12), computed with PARI/GP.

#include <sectio/base/messages.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/interval/stated_pitch.hpp>

#include <support/errors.hpp>
#include <support/intervals.hpp>

using sectio::Message;
using support::pitch;

TEST_CASE("Pitches and their frequencies") {
    struct Row {
        const char *written, *hertz;
    };
    const Row row = GENERATE(values<Row>({{"A4", "440.000000"},
                                          {"a4", "440.000000"},
                                          {"C4", "261.625565"},
                                          {"D4", "293.664768"},
                                          {"F#4", "369.994423"},
                                          {"Gb4", "369.994423"},
                                          {"B3", "246.941651"},
                                          {"Bb3", "233.081881"},
                                          {"B#3", "261.625565"},
                                          {"Cb4", "246.941651"},
                                          {"C-1", "8.175799"},
                                          {"G9", "12543.853951"},
                                          {"Fx4", "391.995436"},
                                          {"F##4", "391.995436"},
                                          {"Ebb4", "293.664768"},
                                          {"A4+50c", "452.892984"},
                                          {"A4 + 50 cents", "452.892984"},
                                          {"A4-50c", "427.474054"},
                                          {"F#4-14c", "367.014448"},
                                          {"A4+1200c", "880.000000"},
                                          {"440Hz", "440.000000"},
                                          {"440 hz", "440.000000"},
                                          {"261.6256 Hz", "261.625600"},
                                          {"0.5Hz", "0.500000"}}));
    INFO(row.written);
    CHECK(pitch(row.written).hertz(6) == row.hertz);
}

TEST_CASE("A pitch in Unicode is the pitch in ASCII") {
    struct Row {
        const char *unicode, *ascii;
    };
    const Row row = GENERATE(values<Row>({{"F♯4", "F#4"},
                                          {"B♭3", "Bb3"},
                                          {"F𝄪4", "F##4"},
                                          {"E𝄫4", "Ebb4"},
                                          {"C♮4", "C4"},
                                          {"F♯4−14¢", "F#4-14c"},
                                          {"C−1", "C-1"},
                                          {"440\u00A0Hz", "440 Hz"}}));
    CHECK(pitch(row.unicode) == pitch(row.ascii));
}

TEST_CASE("Quarter tones have signs in Unicode only") {
    CHECK(pitch("A\U0001D1324") == pitch("A4+50c"));
    CHECK(pitch("A\U0001D1334") == pitch("A4-50c"));
    CHECK(pitch("A♯\U0001D1324") == pitch("A4+150c"));
    CHECK(pitch("A♭\U0001D1334") == pitch("A4-150c"));
}

TEST_CASE("A note is measured from the reference given") {
    const sectio::Pitch a415 = sectio::parse_reference("A4 = 415 Hz");
    CHECK(sectio::parse_pitch("A4", a415).hertz(3) == "415.000");
    CHECK(sectio::parse_pitch("A5", a415).hertz(3) == "830.000");
    CHECK(sectio::parse_reference("A4=442") == pitch("442Hz"));
    CHECK(sectio::parse_reference("  A4   =   442.5  Hz ") == pitch("442.5Hz"));
    // The scientific pitch of J. Sauveur: C4 = 256 Hz; A4 is nine equal semitones above.
    CHECK(sectio::parse_reference("C4=256Hz") == pitch("256Hz") + support::interval("9of12"));
    CHECK(sectio::parse_reference("B♭3 = 233 Hz") == pitch("233Hz") + support::interval("11of12"));
}

TEST_CASE("Malformed pitches: message, column and piece") {
    struct Row {
        const char* text;
        Message id;
        std::size_t column;
        const char* piece;
    };
    const Row row = GENERATE(values<Row>({
        {"", sectio::message::expected_pitch, 1, ""},
        {"H4", sectio::message::note_of_another_language, 1, "H4"},
        {"Re", sectio::message::note_of_another_language, 1, "Re"},
        {"Fis4", sectio::message::note_of_another_language, 1, "Fis4"},
        {"Help", sectio::message::expected_pitch, 1, "Help"},
        {"Rest", sectio::message::expected_pitch, 1, "Rest"},
        {"♯4", sectio::message::expected_pitch, 1, "♯4"},
        {"C###4", sectio::message::expected_pitch, 1, "C###4"},
        {"D", sectio::message::missing_octave, 2, "D"},
        {"F#", sectio::message::missing_octave, 3, "F#"},
        {"C-14c", sectio::message::missing_octave, 2, "-14c"},
        {"D4.5", sectio::message::missing_octave, 2, "4.5"},
        {"D21", sectio::message::pitch_out_of_range, 2, "21"},
        {"D1000000000000000000000", sectio::message::pitch_out_of_range, 2,
         "1000000000000000000000"},
        {"D4+", sectio::message::expected_pitch, 4, "D4+"},
        {"D4+5", sectio::message::cents_need_unit, 1, "D4+5"},
        {" D4-5.5ct", sectio::message::cents_need_unit, 2, "D4-5.5ct"},
        {"D4+5/4", sectio::message::expected_pitch, 5, "/4"},
        {"D4 A4", sectio::message::text_after_pitch, 4, "A4"},
        {"440Hz 1", sectio::message::text_after_pitch, 7, "1"},
        {"440", sectio::message::expected_pitch, 1, "440"},
        {"0Hz", sectio::message::frequency_not_positive, 1, "0Hz"},
        {"0.000 Hz", sectio::message::frequency_not_positive, 1, "0.000"},
        {"3/2", sectio::message::interval_not_pitch, 1, "3/2"},
        {"3:2", sectio::message::interval_not_pitch, 1, "3:2"},
        {"31of53", sectio::message::interval_not_pitch, 1, "31of53"},
        {"701.955c", sectio::message::interval_not_pitch, 1, "701.955c"},
        {"701.955 cents", sectio::message::interval_not_pitch, 1, "701.955"},
        {"2^5", sectio::message::interval_not_pitch, 1, "2^5"},
        {"12 x 3/2", sectio::message::interval_not_pitch, 1, "12"},
        {"D4+100000c", sectio::message::pitch_out_of_range, 1, "D4+100000c"},
        {"99999999999999999999999Hz", sectio::message::pitch_out_of_range, 1,
         "99999999999999999999999Hz"},
        {"A4\xFE", sectio::message::not_utf8, 3, ""},
    }));
    INFO(row.text);
    const auto error = support::error_of([&] { pitch(row.text); });
    REQUIRE(error);
    INFO(error->what());
    CHECK(error->id() == row.id);
    CHECK(error->place().column == row.column);
    CHECK(error->piece() == row.piece);
}

TEST_CASE("A note named in another language is answered with its letter") {
    struct Row {
        const char *given, *advice;
    };
    const Row row = GENERATE(values<Row>({{"H4", "write B for H"},
                                          {"h♭3", "write B for h"},
                                          {"Re", "write D for Re"},
                                          {"sol#4", "write G for sol"},
                                          {"Sib3", "write B for Si"},
                                          {"Do4", "write C for Do"},
                                          {"fa4", "write F for fa"},
                                          {"Fis4", "write F# for Fis"},
                                          {"Es5", "write Eb for Es"},
                                          {"as3", "write Ab for as"}}));
    const auto error = support::error_of([&] { pitch(row.given); });
    REQUIRE(error);
    CHECK(error->advice() == row.advice);
    CHECK(support::name_of(support::error_of([&] { sectio::parse_note_name(row.given); }))
          == "note_of_another_language");
}

TEST_CASE("A frequency alone as the reference is that of A4") {
    for (const char* text : {"A4=442Hz", "442Hz", "442 Hz", "442"}) {
        CAPTURE(text);
        CHECK(sectio::parse_reference(text) == support::pitch("442Hz"));
    }
}

TEST_CASE("Malformed references and note names") {
    struct Row {
        const char* text;
        Message id;
        std::size_t column;
    };
    const Row reference = GENERATE(
        values<Row>({{"A4", sectio::message::expected_reference, 3},
                     {"A4 440", sectio::message::expected_reference, 4},
                     {"A=440", sectio::message::missing_octave, 2},
                     {"A4=", sectio::message::expected_pitch, 4},
                     {"A4=x", sectio::message::expected_pitch, 4},
                     {"A4=0Hz", sectio::message::frequency_not_positive, 4},
                     {"A4=440Hz or so", sectio::message::text_after_pitch, 10},
                     {"A4=99999999999999999999999Hz", sectio::message::pitch_out_of_range, 1}}));
    INFO(reference.text);
    const auto error = support::error_of([&] { sectio::parse_reference(reference.text); });
    REQUIRE(error);
    CHECK(error->id() == reference.id);
    CHECK(error->place().column == reference.column);

    const auto name = support::error_of([] { sectio::parse_note_name("F#4"); });
    REQUIRE(name);
    CHECK(name->id() == sectio::message::text_after_note);
    CHECK(name->place().column == 3);
    CHECK(support::name_of(support::error_of([] { sectio::parse_note_name("?"); }))
          == "expected_pitch");
}

TEST_CASE("Names of notes are read and written") {
    struct Row {
        const char *given, *ascii, *unicode;
    };
    const Row row = GENERATE(values<Row>({{"C", "C", "C"},
                                          {"f#", "F#", "F♯"},
                                          {"B♭", "Bb", "B♭"},
                                          {"Cx", "C##", "C𝄪"},
                                          {"Dbb", "Dbb", "D𝄫"},
                                          {"G♮", "G", "G"},
                                          {"E\U0001D133", "E\U0001D133", "E\U0001D133"}}));
    const sectio::NoteName name = sectio::parse_note_name(row.given);
    CHECK(name.text() == row.ascii);
    CHECK(name.text(true) == row.unicode);
    CHECK(sectio::parse_note_name(name.text(true)) == name);
    CHECK(sectio::parse_note_name(name.text()) == name);
}

TEST_CASE("A stated note sounds where the reference puts it, and a frequency where it is") {
    using sectio::StatedPitch;
    const sectio::Pitch low = pitch("415Hz");
    const StatedPitch note(" F#4-14c ");
    CHECK(note.text() == "F#4-14c");
    CHECK(note.note()->text() == "F#4");
    CHECK(note.at(low) == low - support::interval("3of12") - support::interval("14c"));
    CHECK_FALSE(note.is_key());
    CHECK(StatedPitch("D4").is_key());
    CHECK_FALSE(StatedPitch("D4+0c").is_key()); // that pitch, whatever lies near its key
    CHECK_FALSE(StatedPitch("293Hz").note());
    CHECK(StatedPitch("293Hz").at(low) == pitch("293Hz"));
    CHECK(StatedPitch("D4") != StatedPitch("D4+0c"));
    CHECK(sectio::parse_tonic("Eb").at(low) == StatedPitch("Eb4").at(low));
    CHECK(support::name_of(support::error_of([] { StatedPitch("Eb"); })) == "missing_octave");
    const auto wrong = support::error_of([] { StatedPitch("D4?", {"--tonic", 0, 1}); });
    CHECK(wrong->place().text() == "--tonic:3");
}

TEST_CASE("A pitch is stated by its key and its cents, and reads back as the same") {
    using sectio::StatedPitch;
    const sectio::Pitch low = pitch("415Hz");
    const auto stated = StatedPitch::by_key(low + support::interval("-41.23456c"), low, 3);
    CHECK(stated.text() == "A4-41.235c");
    CHECK(stated == StatedPitch("A4-41.235c"));
    CHECK(stated.at(low) == low - support::interval("41.235c"));
    CHECK(StatedPitch::by_key(low + support::interval("0.0004c"), low, 3) == StatedPitch("A4"));
    CHECK(StatedPitch::by_key(low + support::interval("2c"), low, 3).text() == "A4+2.000c");
    CHECK(StatedPitch({{'E', -2}, 3}, sectio::Rational(-1, 2)) == StatedPitch("Eb3-0.5c"));
    CHECK(StatedPitch::in_hertz(sectio::Rational(261626, 1000)) == StatedPitch("261.626Hz"));
    const auto endless = support::error_of([] { // 1200/7 cents do not end
        StatedPitch({{'D', 0}, 4}, sectio::Rational(1200, 7));
    });
    CHECK(support::name_of(endless) == "unfit_argument");
}

TEST_CASE("A reference keeps how it was stated") {
    const sectio::TuningReference reference("C4=256Hz");
    CHECK(reference.text() == "C4=256Hz");
    CHECK(reference.a4() == pitch("256Hz") + support::interval("9of12"));
    CHECK(support::name_of(support::error_of([] { sectio::TuningReference("A4"); }))
          == "expected_reference");
}
