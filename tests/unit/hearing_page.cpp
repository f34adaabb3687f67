// What the page of a recording says of its notes; the recordings are invented.

#include <sectio/measure/hearing_page.hpp>
#include <sectio/print/print.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/scale/tuned_scale.hpp>

#include <catch2/catch.hpp>
#include <support/json.hpp>

#include <sstream>

using namespace sectio;
using namespace sectio::measure;

namespace {

RecordedNote note(double start_s, double hz, int partials) {
    RecordedNote note;
    note.start_s = start_s, note.end_s = start_s + 0.75;
    note.pitch.hz = hz, note.pitch.half_width_cents = 0.5;
    note.pitch.partials = partials;
    note.pitch.inharmonicity = 2e-4, note.pitch.inharmonicity_half_width = 1e-5;
    return note;
}

Hearing heard(std::vector<RecordedNote> notes) {
    Recording recording;
    recording.name = "invented.wav";
    recording.seconds = 9;
    recording.notes = std::move(notes);
    return hear({recording});
}

nlohmann::json json(const Hearing& hearing) {
    return support::json_of(print_json(hearing_page(hearing, Pitch::concert_a()), {}));
}

std::string text(const Hearing& hearing) {
    return print_text(hearing_page(hearing, Pitch::concert_a()), {});
}

Hearing many(int count) {
    std::vector<RecordedNote> notes;
    for (int i = 0; i < count; ++i)
        notes.push_back(note(i, i % 2 == 0 ? 220 : 330, 5));
    return heard(notes);
}

} // namespace

TEST_CASE("Inharmonicity is said of notes with three partials or more") {
    const auto page = json(heard({note(0, 220, 2), note(1, 330, 3), note(2, 440, 0)}));
    REQUIRE(page["notes"].size() == 3);
    const auto has = [&](std::size_t i) {
        return page["notes"][i].contains("inharmonicity")
               && !page["notes"][i]["inharmonicity"].is_null();
    };
    CHECK_FALSE(has(0));
    CHECK(has(1));
    CHECK_FALSE(has(2));
    CHECK(page["notes"][0]["partials"] == 2);
    CHECK(page["notes"][1]["start_s"] == "1.000");
    CHECK(page["notes"][1]["duration_s"] == "0.750");
    CHECK(page["note_count"] == 3);
    CHECK(page["seconds"] == "9.000");
}

TEST_CASE("People see the notes in time from two to forty") {
    const auto shown = [](const Hearing& hearing) {
        return text(hearing).find("Notes in time") != std::string::npos;
    };
    CHECK_FALSE(shown(many(1)));
    CHECK(shown(many(2)));
    CHECK(shown(many(40)));
    CHECK_FALSE(shown(many(41)));
    CHECK(json(many(41))["notes"].size() == 41); // programs see all
}

TEST_CASE("Of a single note its inharmonicity is said where it is more than its doubt") {
    CHECK(text(heard({note(0, 220, 5)})).find("B = (20.0 ± 1.0) · 10⁻⁵") != std::string::npos);
    RecordedNote sure = note(0, 220, 5);
    sure.pitch.inharmonicity_half_width = 1e-8; // less than the last digit says
    CHECK(text(heard({sure})).find("B = (20.0 ± 0.1) · 10⁻⁵") != std::string::npos);
    RecordedNote doubtful = note(0, 220, 5);
    doubtful.pitch.inharmonicity = doubtful.pitch.inharmonicity_half_width;
    CHECK(text(heard({doubtful})).find("B = ") == std::string::npos);
    CHECK(text(many(2)).find("B = ") == std::string::npos);
    RecordedNote plucked = note(0, 220, 5);
    plucked.pitch.settled_s = 0.3, plucked.pitch.glide_cents = 4;
    CHECK(text(heard({plucked})).find("after 0.3 s, -4.0 cents from its start")
          != std::string::npos);
}

TEST_CASE("A sample is the longest note, and another loud one is worth a word") {
    const auto remarks = [](double hz, double level_db) {
        Recording recording = heard({note(0, 220, 5), note(2, hz, 5)}).recordings[0];
        recording.notes[0].end_s = 1.5;
        recording.notes[1].level_db = level_db;
        const Sample sample = sample_of(recording, Pitch::concert_a(), nullptr);
        CHECK(sample.key == 57); // A3
        CHECK(std::abs(sample.above_key.estimate().value) < 1e-9);
        return sample.remarks.size();
    };
    CHECK(remarks(330, 0) == 1);
    CHECK(remarks(330, -19) == 1);
    CHECK(remarks(330, -21) == 0);      // 20 dB softer
    CHECK(remarks(220 * 1.02, 0) == 0); // 34 cents off: the same string
    CHECK(remarks(220 / 1.04, 0) == 1); // 68 cents
}

TEST_CASE("Of several recordings the lowest pitch is the tonic, however the first one goes") {
    Recording rising, lowest;
    rising.name = "rising.wav", lowest.name = "lowest.wav";
    rising.notes = {note(0, 330, 5), note(1, 440, 5), note(2, 550, 5)};
    lowest.notes = {note(0, 220, 5)};
    CHECK(hear({rising}).tonic_hz == Approx(330));
    const Hearing both = hear({rising, lowest});
    CHECK(both.tonic_basis == TonicBasis::lowest);
    CHECK(both.tonic_hz == Approx(220));
}

TEST_CASE(
    "Of several recordings over drones that agree, octaves not counted, these are the tonic") {
    Recording first, second;
    first.name = "first.wav", second.name = "second.wav";
    first.notes = {note(0, 330, 5), note(1, 440, 5)};
    second.notes = {note(0, 247.5, 5)};
    first.drone = {{110, 0.1}}, second.drone = {{220.01, 0.3}};
    const Hearing both = hear({first, second});
    CHECK(both.tonic_basis == TonicBasis::drone);
    CHECK(both.tonic_hz == Approx(220));
    CHECK(both.tonic_half_width_cents == Approx(0.1));
    second.drone = {{220.1, 0.3}}; // 0.79 cents off the other's octave
    CHECK(hear({first, second}).tonic_half_width_cents == Approx(0.787).margin(0.001));
    second.drone = {{224, 0.3}};
    CHECK(hear({first, second}).tonic_basis == TonicBasis::lowest);
}

TEST_CASE("The scale of a recording is counted from its tonic, which need not be the lowest") {
    Hearing falling = heard({note(0, 440, 5), note(1, 220, 5), note(2, 330, 5)});
    falling.tonic_hz = 330;
    const Scale scale = scale_of(falling, std::nullopt);
    REQUIRE(scale.degrees.size() == 3);
    CHECK(scale.tonic_index() == 1);
    CHECK(scale.tonic->text().starts_with("330"));
}

TEST_CASE("A reference stays with what was measured, on every way to the next command") {
    const Pitch a4 = parse_reference("A4=442Hz");
    const Hearing hearing = heard({note(0, 442, 5), note(1, 552.5, 5)});
    const auto deviation = [](const PitchList& list) {
        const TunedScale scale = tuned(to_scale(list));
        return scale.degrees()[scale.tonic_index()].deviation.cents(2);
    };
    const page::Page page = hearing_page(hearing, a4);
    const PitchList from_json = read_json(print_json(page, {}), "m.json");
    CHECK(*from_json.reference == "A4 = 442.000 Hz");
    CHECK(deviation(from_json) == "0.00");
    const PitchList from_csv = read_pitch_table(print_csv(page, {}), "m.csv");
    CHECK(*from_csv.reference == "A4 = 442.000 Hz");
    CHECK(deviation(from_csv) == "0.00");
    CHECK(from_csv.remarks.empty());
    const Scale scale = scale_of(hearing, std::nullopt, "A4=442Hz");
    CHECK(*scale.reference == "A4=442Hz");
    CHECK(tuned(scale).degrees()[0].deviation.cents(2) == "0.00");
}

TEST_CASE("The pitches of a recording are the table of every measurement") {
    const auto page = json(heard({note(0, 220, 5), note(1, 330, 5)}));
    CHECK(page["reference_hz"] == "440.000");
    CHECK(page["a4_hz"] == "440.000"); // as it was called
    const auto& fifth = page["pitches"][1];
    CHECK(fifth["pitch_uncertainty_cents_exact"] == "0.500");
    CHECK(fifth["uncertainty_cents_exact"] == "0.7072"); // √2 · 0.5
    CHECK(fifth["basis"] == "recording");
    CHECK(fifth["cents_exact"] == "701.955000865");
}

TEST_CASE("Cents above a drone that is none of the notes may be off by the drone's own error too") {
    Recording recording;
    recording.name = "over-a-drone.wav";
    recording.notes = {note(0, 330, 5), note(1, 440, 5)};
    recording.drone = {{147, 0.3}};
    const auto page = json(hear({recording}));
    CHECK(page["tonic"]["hz"] == "294.000");
    for (const char* table : {"pitches", "notes"}) {
        CHECK(page[table][0]["pitch_uncertainty_cents_exact"] == "0.500");
        CHECK(page[table][0]["uncertainty_cents_exact"] == "0.5831"); // √(0.5² + 0.3²), rounded up
    }
    recording.notes[0].pitch.hz = 294; // a note on it has its own error alone
    CHECK(json(hear({recording}))["pitches"][0]["uncertainty_cents_exact"] == "0.500");
}

TEST_CASE("JSON of a recording keeps its tonic, though it is not the lowest pitch") {
    Hearing hearing = heard({note(0, 440, 5), note(1, 220, 5), note(2, 330, 5)});
    hearing.tonic_hz = hearing.pitches[1].hz;
    const std::string text = print_json(hearing_page(hearing, Pitch::concert_a()), {});
    const Scale scale = to_scale(read_json(text, "m.json"));
    CHECK(scale.tonic_index() == 1);
    CHECK(scale.degrees[2].uncertainty == scale_of(hearing, std::nullopt).degrees[2].uncertainty);
}

TEST_CASE("The octave of the tonic is no degree beside it") {
    const Hearing hearing = heard({note(0, 220, 5), note(1, 330, 5), note(2, 440.0000018, 5)});
    const Scale scale = scale_of(hearing, Interval::octave());
    REQUIRE(scale.degrees.size() == 2);
    CHECK(scale.degrees[1].interval.cents(3) == "701.955");
    CHECK(scale_of(hearing, std::nullopt).degrees.size() == 3);
}

TEST_CASE("The melody of a hearing is what its table of notes says") {
    // A, B, A, E, A, B, A: more notes than a scale up and down has.
    Hearing hearing;
    hearing.recordings.push_back({.name = "melody.wav"});
    const std::vector<double> hz{440.125, 495.5, 440.5, 660.25, 440.0, 495.75, 440.25};
    double at = 0;
    for (const double frequency : hz) {
        RecordedNote note{.start_s = at, .end_s = at + 0.5};
        note.pitch.hz = frequency;
        note.pitch.half_width_cents = 1.5;
        hearing.recordings[0].notes.push_back(note);
        at += 0.75;
    }
    hearing.pitches = {{.hz = 440.2, .half_width_cents = 1}, {.hz = 495.6, .half_width_cents = 1}};
    hearing.tonic_hz = 440.2;
    REQUIRE(hearing.is_melody());
    const Melody melody = melody_of(hearing);
    std::istringstream table(page::print_csv(hearing_page(hearing, Pitch::concert_a())));
    const Melody read = load_melody("-", Catalogue::installed(), table);
    CHECK(melody.in_time);
    CHECK(melody.sounding_zero == parse_pitch("440.125Hz"));
    REQUIRE(melody.notes.size() == hz.size());
    REQUIRE(read.notes.size() == hz.size());
    const auto away = [](const Interval& a, const Interval& b) {
        return std::abs((a - b).cents());
    };
    for (std::size_t i = 0; i < hz.size(); ++i) {
        CHECK(away(melody.notes[i].interval, read.notes[i].interval) < 1e-6);
        CHECK(melody.notes[i].weight == read.notes[i].weight);
        CHECK(melody.notes[i].ends_phrase == read.notes[i].ends_phrase);
        CHECK(away(*melody.notes[i].uncertainty, *read.notes[i].uncertainty) < 1e-3);
    }
}

TEST_CASE("The melody of one recording is that of its hearing") {
    Recording recording{.name = "melody.wav"};
    for (const double hz : {440.0, 495.0, 440.0, 660.0, 440.0, 495.0, 440.0, 495.0}) {
        const double at = static_cast<double>(recording.notes.size());
        RecordedNote note{.start_s = at, .end_s = at + 1};
        note.pitch.hz = hz;
        note.pitch.half_width_cents = 1;
        recording.notes.push_back(note);
    }
    const Melody melody = melody_of(recording);
    CHECK(melody.in_time);
    REQUIRE(melody.notes.size() == 8);
    CHECK(melody.notes[3].interval == Interval::from_ratio(3, 2));
}
