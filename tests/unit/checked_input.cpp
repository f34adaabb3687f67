// What a program hands to the library wrongly is an error that says so: no crash, no silent figure.

#include <sectio/identify/identify.hpp>
#include <sectio/instrument/fret_plan.hpp>
#include <sectio/measure/heard_pitches.hpp>
#include <sectio/measure/samples.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/sheet/compare_page.hpp>
#include <sectio/sound/listening.hpp>
#include <sectio/sound/music.hpp>
#include <sectio/sound/tone.hpp>
#include <sectio/tuning/perform.hpp>
#include <sectio/tuning/retuning.hpp>
#include <sectio/tuning/stored_tuning.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>
#include <support/paths.hpp>

#include <cmath>
#include <limits>

using namespace sectio;
using support::error_of;
using support::name_of;

namespace {

Scale scale_of(const std::vector<const char*>& degrees) {
    Scale scale{.name = "made by a program", .period = Interval::octave()};
    for (const char* degree : degrees)
        scale.degrees.push_back({.interval = parse_interval(degree)});
    return scale;
}

constexpr double no_number = std::numeric_limits<double>::quiet_NaN();

template <typename Call>
std::string told(Call call) {
    return name_of(error_of(call));
}

std::string tuned_error(const std::vector<const char*>& degrees) {
    return told([&] { tuned(scale_of(degrees)); });
}

} // namespace

TEST_CASE("A scale that does not keep its rules is not tuned") {
    CHECK(tuned_error({"1/1", "9/8", "5/4"}) == "no error");
    CHECK(tuned_error({"1/1", "5/4", "9/8"}) == "degrees_not_rising");
    CHECK(tuned_error({"1/1", "5/4", "5/4"}) == "degrees_not_rising");
    CHECK(tuned_error({"1/1", "5/2"}) == "degree_outside_period");
    CHECK(tuned_error({"9/8", "5/4"}) == "no_tonic_degree");
    CHECK(tuned_error({}) == "no_tonic_degree");
}

TEST_CASE("What a scale does not have is not looked for, nor planned, compared or tuned") {
    const TunedScale scale = tuned(scale_of({"1/1", "9/8", "5/4"}));
    CHECK(told([&] { scale.pitch({2, 5}); }) == "no error");
    CHECK(told([&] { scale.pitch({3, 0}); }) == "no_such_degree");
    CHECK(told([&] { scale.tuned({3, 0}); }) == "no_such_degree");
    Scale set = scale.scale();
    set.period.reset();
    CHECK(told([&] { tuned(set).tuned({0, 1}); }) == "no_such_degree");
    set.degrees[1].uncertainty = -Interval::octave();
    CHECK(told([&] { tuned(set); }) == "uncertainty_negative");
    CHECK(told([] { plan_frets(Scale{}, {PlannedString{}}); }) == "no_tonic_degree");
    CHECK(told([] { compare_page({}, {}); }) == "nothing_to_compare_with");
}

TEST_CASE("A weight of 0 or below is no weight") {
    Melody melody{.name = "tune"};
    for (const char* degree : {"1/1", "9/8", "5/4", "4/3"})
        melody.notes.push_back({parse_interval(degree), Rational(1), false, std::nullopt});
    const auto asked = [&] { identify(melody, ScaleLibrary::installed()); };
    CHECK(name_of(error_of(asked)) == "no error");
    for (const int weight : {0, -1}) {
        melody.notes.back().weight = weight;
        CHECK(name_of(error_of(asked)) == "weight_not_positive");
    }
    melody.notes.back().weight = Integer(1) << 5000;
    CHECK(told(asked) == "weight_not_positive");
    melody.notes.back().weight = 1;
    melody.notes.back().uncertainty = -Interval::octave();
    CHECK(told(asked) == "uncertainty_negative");
    melody.notes.clear();
    CHECK(name_of(error_of(asked)) == "no_pitches");
    CHECK(told([&] { reference_of(melody); }) == "no_pitches");
}

TEST_CASE("A tuning message holds no number beyond its bytes") {
    using namespace sectio::tuning;
    TuningMessage message{.kind = MessageKind::note_change, .keys = {{60, FrequencyWord(0)}}};
    const auto written = [&] { bytes_of(message); };
    CHECK(name_of(error_of(written)) == "no error");
    message.device = 999;
    CHECK(name_of(error_of(written)) == "tuning_field");
    message.device = 0;
    message.program = -1;
    CHECK(name_of(error_of(written)) == "tuning_field");
    message.program = 0;
    message.keys[0].key = 128;
    CHECK(name_of(error_of(written)) == "tuning_field");
    message.keys.clear();
    CHECK(name_of(error_of(written)) == "tuning_field");
    message.kind = MessageKind::octave_1;
    message.offsets[3] = 64; // cents; the form ends at 63
    CHECK(name_of(error_of(written)) == "tuning_field");
}

TEST_CASE("Keys, messages and music hold no number that is not there") {
    using namespace sectio::tuning;
    const TunedScale scale = tuned(scale_of({"1/1", "9/8", "5/4"}));
    CHECK(told([&] { key_table(scale, {60, {0, 1, 99}}); }) == "no error");
    CHECK(told([&] { key_table(scale, {128, {}}); }) == "tuning_no_key");
    CHECK(told([&] { key_table(scale, {-1, {}}); }) == "tuning_no_key");
    CHECK(told([&] { key_table(scale, {60, {-5}}); }) == "tuning_mapping");
    CHECK(told([] { scale_of(StoredTuning{}, "empty"); }) == "tuning_key_silent");
    CHECK(told([] { read_message("", "f", "at byte 0"); }) == "no_tuning_message");
    Performance music;
    music.pitches = {Pitch::concert_a()};
    music.instruments.resize(1);
    music.notes = {{.begin = 0, .end = 480}};
    CHECK(told([&] { perform(music); }) == "no error");
    const auto played = [&](auto change) {
        Performance changed = music;
        change(changed.notes[0]);
        CHECK(told([&] { sound::music_of(changed); }) == told([&] { perform(changed); }));
        return told([&] { perform(changed); });
    };
    CHECK(played([](PlayedNote& note) { note.pitch = 1; }) == "performance_index");
    CHECK(played([](PlayedNote& note) { note.instrument = 1; }) == "performance_index");
    CHECK(played([](PlayedNote& note) { note.velocity = 200; }) == "performance_index");
    CHECK(told([&] { sound::music_of(music, {}, 0); }) == "tempo_unreadable");
    CHECK(told([&] { sound::music_of(music, {}, -1); }) == "tempo_unreadable");
    music.messages.push_back({.instrument = 7});
    CHECK(told([&] { perform(music); }) == "performance_index");
}

TEST_CASE("A sound lasts as long as a number says, at a pitch that strings have") {
    using namespace sectio::sound;
    const TunedScale scale = tuned(scale_of({"1/1", "9/8", "5/4"}));
    for (const double seconds : {0.0, -1.0, no_number})
        CHECK(told([&] { listen_to(scale, {.note_seconds = seconds}); }) == "sound_seconds");
    CHECK(told([&] { listen_to(scale, {.swell_s = no_number}); }) == "sound_seconds");
    Listening listening = listen_to(scale, {.note_seconds = 0.2});
    CHECK(told([&] { samples_of(listening); }) == "no error");
    for (const double start : {-5.0, 500.0, no_number}) {
        listening.notes[0].start_s = start;
        CHECK(told([&] { samples_of(listening); }) == "sound_seconds");
    }
    listening.notes.clear();
    listening.seconds = 1e15;
    CHECK(told([&] { samples_of(listening); }) == "listening_too_long");
    std::vector<float> samples(10);
    for (const double hz : {0.0, -440.0, no_number}) {
        CHECK(told([&] { add_plucked(samples, {.hz = hz}); }) == "sound_pitch_out_of_range");
        CHECK(told([&] { add_drone(samples, {.hz = hz}); }) == "sound_pitch_out_of_range");
    }
    CHECK(told([&] { add_plucked(samples, {.seconds = no_number}); }) == "sound_seconds");
}

TEST_CASE("Samples that are no numbers, and a rate that is none, are told as such") {
    std::vector<float> samples(4000, 0.5F);
    const auto heard = [&](int rate) {
        return name_of(error_of([&] { measure::listen(samples, rate, "buffer"); }));
    };
    CHECK(heard(0) == "sound_rate");
    CHECK(heard(-44'100) == "sound_rate");
    samples[2000] = std::nanf("");
    CHECK(heard(44'100) == "sound_not_finite");
    CHECK(name_of(error_of([] { measure::hear({}); })) == "nothing_heard");
    CHECK(name_of(error_of([] { measure::hear({measure::Recording{}}); })) == "nothing_heard");
    samples[2000] = 0;
    for (const double hz : {0.0, -5.0, no_number, 22'050.0})
        CHECK(told([&] { measure::listen(samples, 44'100, "buffer", {.drone_hz = {hz}}); })
              == "drone_frequency");
}

TEST_CASE("A recording that a program made has notes with a frequency and a time") {
    const auto heard = [](double hz, double half_width, double end) {
        measure::RecordedNote note{.start_s = 1, .end_s = end};
        note.pitch.hz = hz;
        note.pitch.half_width_cents = half_width;
        const measure::Recording recording{.name = "made", .notes = {note}};
        const auto sample = [&] { measure::sample_of(recording, Pitch::concert_a(), nullptr); };
        const std::string name = told([&] { measure::hear({recording}); });
        CHECK(told(sample) == name);
        return name;
    };
    CHECK(heard(440, 1, 2) == "no error");
    CHECK(heard(0, 1, 2) == "note_not_measured");
    CHECK(heard(no_number, 1, 2) == "note_not_measured");
    CHECK(heard(440, no_number, 2) == "note_not_measured");
    CHECK(heard(440, -1, 2) == "note_not_measured");
    CHECK(heard(440, 1, 0.5) == "note_not_measured");
    CHECK(told([] { measure::sample_of({}, Pitch::concert_a(), nullptr); }) == "nothing_heard");
}

TEST_CASE("Nothing is 0 cents, without a sign") {
    CHECK(!std::signbit(Interval().cents()));
    CHECK(!std::signbit(sum({}).cents()));
}

TEST_CASE("Data are taken from where a program says") {
    CHECK(name_of(error_of([] { set_data_directory("/"); })) == "no_data");
    CHECK_NOTHROW(set_data_directory(support::data_dir()));
    CHECK(data_directory() == support::data_dir());
}
