// A tuner's readings: what each says, and several of one note put together.

#include <sectio/interval/real.hpp>
#include <sectio/measure/messages.hpp>
#include <sectio/measure/readings.hpp>
#include <sectio/measure/readings_page.hpp>
#include <sectio/print/print.hpp>

#include <support/errors.hpp>
#include <support/intervals.hpp>

#include <random>

using namespace sectio;
using namespace sectio::measure;
using support::interval;
using support::pitch;

namespace {

Reading reading(std::string_view text, const Pitch& a4 = Pitch::concert_a()) {
    return parse_reading(text, a4, {"readings", 0, 1});
}

std::vector<ReadNote> notes(std::string_view text, const char* apart = "20c") {
    return notes_of(parse_readings(text, Pitch::concert_a(), {"readings"}), interval(apart));
}

std::vector<Reading> table(const char* text) {
    return read_reading_table(text, "tuner.csv", Pitch::concert_a());
}

} // namespace

TEST_CASE("A reading is as fine as its last digit") {
    CHECK(reading("E4-41c").pitch == pitch("E4-41c"));
    CHECK(reading("E4-41c").half_width == interval("0.5c"));
    CHECK(reading("E4").half_width == interval("0.5c"));
    CHECK(reading("E4+3.25c").half_width == interval("0.005c"));
    CHECK(reading("329.1 Hz").half_width == interval("6583/6582"));
    CHECK(reading("440Hz").half_width == interval("881/880"));
}

TEST_CASE("A stated half width goes before the last digit") {
    CHECK(reading("E4-41c ± 2c").half_width == interval("2c"));
    CHECK(reading("440Hz +- 1Hz").half_width == interval("441/440"));
}

TEST_CASE("A note is one of the tuner's own reference, a frequency is not") {
    const Pitch a4 = pitch("415Hz");
    CHECK(reading("A4", a4).pitch == pitch("415Hz"));
    CHECK(reading("A4 ± 2c", a4).pitch == pitch("415Hz"));
    CHECK(reading("440Hz", a4).pitch == pitch("440Hz"));
    CHECK(reading("440Hz±1Hz", a4).pitch == pitch("440Hz"));
}

TEST_CASE("A label stands before the sign of equality") {
    CHECK(reading("fret 1 = E4-41c").label == "fret 1");
    CHECK(reading("fret 1 = E4-41c").pitch == pitch("E4-41c"));
    const auto wrong = support::error_of([] { reading("fret 1 = Q4"); });
    CHECK(support::name_of(wrong) == "expected_pitch");
    CHECK(wrong->place().column == 9);
}

TEST_CASE("Readings may be spelled as tuners and players spell them") {
    for (const char* text :
         {"E4-29", "E4 -29", "E4-29ct", "E4 −29 cents", "E4 29 cents flat", "e4 29c flat",
          "E4 -29¢", "E4 29 flat", "E4 –29", "E4 -29 Cent", "E4: -29", "E4 = −29 Ct"}) {
        CAPTURE(text);
        CHECK(reading(text).pitch == pitch("E4-29c"));
        CHECK(reading(text).half_width == interval("0.5c"));
    }
    CHECK(reading("F4+50 ± 2c").pitch == pitch("F4+50c"));
    CHECK(reading("F4+50 ± 2c").half_width == interval("2c"));
    CHECK(reading("Bb3 +4.5").pitch == pitch("Bb3+4.5c"));
    CHECK(reading("C-1 3 sharp").pitch == pitch("C-1+3c"));
    CHECK(reading("fret 2: F4+50c").label == "fret 2");
    CHECK(reading("fret 2: F4+50c").pitch == pitch("F4+50c"));
    for (const char* text : {"D4 0", "D4: 0", "D4 +0", "D4 0 cents"})
        CHECK(reading(text).pitch == pitch("D4"));
    for (const char* text : {"E4 29", "E4 -29 flat", "E4 29 low", "E 29 flat"}) {
        CAPTURE(text);
        CHECK(support::error_of([&] { reading(text); }));
    }
}

TEST_CASE("Cents alone belong to the note before them") {
    const std::string joined = joined_readings({"D4", "0", "E4", "-29", "F#4", "−48.5", "a=G4"});
    CHECK(joined == "D4 0, E4 -29, F#4 −48.5, a=G4");
    CHECK(joined_readings({"E4", "–29"}) == "E4 –29"); // an en dash
    CHECK(parse_readings(joined, Pitch::concert_a(), {"readings"})[2].pitch == pitch("F#4-48.5c"));
    CHECK(readings_as_pitches("D4: 0, E4 –29; low = A4 3 flat ± 2c 440Hz")
          == "D4+0c, E4-29c, A4-3c± 2c 440Hz");
}

TEST_CASE("A decimal comma is refused, not taken for the end of a reading") {
    for (const char* text : {"E4 -29,5", "D4, E4-29,5c", "293,5Hz", "low = E4 +3,25"}) {
        CAPTURE(text);
        CHECK(support::name_of(support::error_of([&] { notes(text); })) == "reading_decimal_comma");
    }
    CHECK(notes("1=D4,2=E4,3=F4").size() == 3);
    CHECK(notes("D4+4,E4-29, 440Hz").size() == 3);
}

TEST_CASE("A negative octave that a tuner did not show is cents without an octave") {
    for (const char* text : {"D-1", "D-29", "Bb-12", "D−5", "D-2 ± 1c"}) {
        CAPTURE(text);
        CHECK(support::name_of(support::error_of([&] { reading(text); })) == "missing_octave");
    }
}

TEST_CASE("A number alone is no reading") {
    for (const char* text : {"293.5", "low = 440", "440 ± 1Hz"}) {
        CAPTURE(text);
        CHECK(support::name_of(support::error_of([&] { reading(text); })) == "reading_needs_unit");
    }
}

TEST_CASE("Readings with blanks alone between them") {
    const auto read = parse_readings("D4 E4-29 F4 +50c ± 2c 440Hz ± 1Hz G4 3 cents sharp, a b=A4",
                                     Pitch::concert_a(), {"readings"});
    REQUIRE(read.size() == 6);
    CHECK(read[1].pitch == pitch("E4-29c"));
    CHECK(read[2].pitch == pitch("F4+50c"));
    CHECK(read[2].half_width == interval("2c"));
    CHECK(read[3].half_width == interval("441/440"));
    CHECK(read[4].pitch == pitch("G4+3c"));
    CHECK(read[5].label == "a b");
    const auto wrong = support::error_of([] { notes("D4 E4-29q"); });
    CHECK(wrong->place().text() == "readings:4");
}

TEST_CASE("Tables are read by their headings") {
    const auto by_note = table("fret,note,deviation,uncertainty\n1,E4,-41,2\n2,F#4,+3.5,\n");
    REQUIRE(by_note.size() == 2);
    CHECK(by_note[0].label == "1");
    CHECK(by_note[0].pitch == pitch("E4-41c"));
    CHECK(by_note[0].half_width == interval("2c"));
    CHECK(by_note[1].pitch == pitch("F#4+3.5c"));
    CHECK(by_note[1].half_width == interval("0.05c"));
    CHECK(table("Hz\n329.1\n440\n")[1].pitch == pitch("440Hz"));
    CHECK(table("E4-41c\nA4\n")[1].pitch == pitch("A4"));
    CHECK(table("low;D3+2c\nhigh;A3\n")[0].label == "low");
    CHECK(table("Ton;Cents\nD4;0\nE4;-29,5\n")[1].pitch == pitch("E4-29.5c"));
}

TEST_CASE("The table of measured pitches is read as it was measured") {
    const auto read = notes("D4+4c, 1115.5Hz, 350.2Hz ± 0.3Hz");
    const PitchList list = read_pitches(read, std::nullopt, Pitch::concert_a());
    const std::string csv = print_csv(readings_page(list, read, Pitch::concert_a()));
    std::vector<std::string> remarks;
    const auto again = notes_of(read_reading_table(csv, "back.csv", Pitch::concert_a(), &remarks),
                                interval("30c"));
    REQUIRE(again.size() == read.size());
    for (std::size_t i = 0; i < read.size(); ++i) {
        CAPTURE(read[i].pitch.hertz(6));
        CHECK(size_in_cents(again[i].pitch - read[i].pitch).rounded(6) == 0);
        CHECK(again[i].uncertainty == read[i].uncertainty);
    }
    CHECK(remarks
          == std::vector<std::string>{"Not read of the table: tonic, period, apart_cents."});
}

TEST_CASE("Readings that cannot be read are refused with their place") {
    const auto refusal = [](const char* text) { return support::error_of([&] { table(text); }); };
    CHECK(support::name_of(refusal("")) == "no_readings");
    CHECK(support::name_of(refusal("note,hz\n,\nE4,\n")) == "no error");
    CHECK(support::name_of(refusal("note,label\n,open\n")) == "reading_missing");
    for (const char* heading : {"Klang;Cents\nD4;0\n", "Saite,Klang\nx,D4\n"})
        CHECK(support::name_of(refusal(heading)) == "no_readings");
    CHECK(support::name_of(refusal("E;-29\n")) == "expected_pitch");
    CHECK(refusal("note\nE4\nX4\n")->place().text() == "tuner.csv:3:1");
    CHECK(support::name_of(support::error_of([] { reading("386c ± 2c"); })) == "reading_not_pitch");
    CHECK(support::name_of(support::error_of([] { notes(" , "); })) == "no_readings");
}

TEST_CASE("Several readings of one note give their mean, and it has their scatter") {
    const auto read = notes("E4-41c, A4, E4-43c, E4-42c");
    REQUIRE(read.size() == 2);
    CHECK(read[0].pitch == pitch("E4-42c"));
    CHECK(read[0].readings == 3);
    CHECK(*read[0].spread == interval("1c"));
    // t for 2 degrees of freedom is 4.30: 4.30/√3 = 2.48261, with 0.5 by squares 2.53246.
    CHECK(read[0].uncertainty == interval("2.5325c"));
    // The scatter of all notes holds for the one that was read once: √(4.30² + 0.5²).
    CHECK(read[1].uncertainty == interval("4.329c"));
    CHECK_FALSE(read[1].spread);
}

TEST_CASE("Readings that were taken once keep their own half width") {
    const auto read = notes("A4, E4-41c±2c");
    CHECK(read[0].uncertainty == interval("2c"));
    CHECK(read[1].uncertainty == interval("0.5c"));
}

TEST_CASE("Labels keep near notes apart and far ones together") {
    const auto read = notes("a=E4, b=E4+5c, a=E4+30c");
    REQUIRE(read.size() == 2);
    CHECK(read[0].label == "b");
    CHECK(read[1].pitch == pitch("E4+15c"));
    CHECK(notes("E4, E4+15c").size() == 1);
    CHECK(notes("E4, E4+15c", "15c").size() == 2);
}

TEST_CASE("The half width of a mean holds the truth 95 times in 100") {
    std::mt19937 random(1);
    std::normal_distribution<double> scatter(0, 3);
    int held = 0;
    constexpr int trials = 2000;
    for (int i = 0; i < trials; ++i) {
        std::vector<Reading> readings(static_cast<std::size_t>(3 + i % 5));
        for (Reading& r : readings)
            r.pitch = pitch("A4")
                      + Interval::from_cents(Rational(std::lround(1000 * scatter(random)), 1000));
        const auto note = notes_of(readings, interval("100c")).front();
        held += absolute(note.pitch - pitch("A4")) <= note.uncertainty;
    }
    CHECK(held >= 0.94 * trials);
    CHECK(held <= 0.965 * trials);
}

TEST_CASE("Very many frequencies of one note have a mean too") {
    std::vector<Reading> readings;
    for (int i = 0; i < 2000; ++i)
        readings.push_back(reading(std::to_string(100'000 + i % 1999) + ".5Hz"));
    const auto read = notes_of(readings, interval("100c"));
    REQUIRE(read.size() == 1);
    CHECK(read[0].readings == 2000);
}

TEST_CASE("What lies between two measured notes is off by the errors of both") {
    std::mt19937 random(2);
    std::normal_distribution<double> scatter(0, 3);
    const Pitch truth[2] = {pitch("D4"), pitch("A4")};
    for (const std::size_t times : {1U, 3U, 5U}) {
        int held = 0;
        constexpr int trials = 700;
        for (int i = 0; i < trials; ++i) {
            std::vector<Reading> all;
            std::uniform_real_distribution<double> place(-50, 50);
            const double beside[2] = {place(random), place(random)};
            for (std::size_t note = 0; note < 2; ++note)
                for (std::size_t k = 0; k < times; ++k) {
                    const double noise = times > 1 ? scatter(random) : 0;
                    Reading r;
                    r.pitch =
                        truth[note]
                        + Interval::from_cents(Rational(std::lround(beside[note] + noise), 1));
                    r.half_width = interval("0.5c");
                    all.push_back(r);
                }
            const PitchList list =
                read_pitches(notes_of(all, interval("200c")), std::nullopt, Pitch::concert_a());
            const Interval true_size = truth[1] - truth[0]
                                       + Interval::from_cents(Rational(
                                           std::lround(1e6 * (beside[1] - beside[0])), 1000000));
            const Interval off = absolute(list.pitches[1].above.figure - true_size);
            held += off <= *half_width_above_tonic(list, list.pitches[1]);
            if (i < 20)
                CHECK(to_scale(list).degrees[1].uncertainty
                      == half_width_above_tonic(list, list.pitches[1]));
        }
        CAPTURE(times, held);
        CHECK(held >= 0.925 * trials);
        CHECK(held <= 0.98 * trials);
    }
}

TEST_CASE("Readings become a list above the lowest of them or a tonic") {
    const auto read = notes("E4-41c, A4");
    const PitchList lowest = read_pitches(read, std::nullopt, Pitch::concert_a());
    CHECK(lowest.pitches[0].above.figure.is_unison());
    CHECK(*lowest.tonic == "E4-41.000c");
    const PitchList from_d = read_pitches(read, "D4", Pitch::concert_a());
    CHECK(from_d.pitches[1].above.figure == interval("7of12"));
    CHECK(from_d.pitches[1].above.half_width == interval("0.5c"));
}

TEST_CASE("More readings are advised where some, but fewer than three, repeat a note") {
    const auto advised = [](const char* text) {
        const auto read = notes(text);
        const PitchList list = read_pitches(read, std::nullopt, Pitch::concert_a());
        return print_text(readings_page(list, read, Pitch::concert_a()), {}).find("So few readings")
               != std::string::npos;
    };
    CHECK_FALSE(advised("E4-41c, A4"));
    CHECK(advised("E4-41c, E4-43c, A4"));
    CHECK(advised("E4-41c, E4-43c, A4-1c, A4+1c"));
    CHECK_FALSE(advised("E4-41c, E4-43c, E4-42c, A4-1c, A4+1c"));
}
