// Melodies over what sounds all the time, strings that ring on, soft attacks, bars, vibrato,
// glides.

#include "support/tones.hpp"

#include <sectio/measure/heard_pitches.hpp>
#include <sectio/measure/note_sieve.hpp>
#include <sectio/measure/vibrato.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace sectio::measure;

namespace {

constexpr double rate = 22050;

std::vector<float> tone(double hz, double seconds, bool plucked, std::uint64_t seed = 1) {
    return support::tone({.hz = hz, .seconds = seconds, .rate = rate, .plucked = plucked}, seed);
}

std::vector<float> at_db(std::vector<float> sound, double db) {
    for (float& value : sound)
        value *= static_cast<float>(std::pow(10, db / 20));
    return sound;
}

std::vector<float> with_noise(std::vector<float> sound) {
    const auto length = static_cast<double>(sound.size()) / rate;
    return support::mixed({std::move(sound), at_db(support::noise(length, rate), -60)});
}

Recording heard(const std::vector<float>& sound, const ListenOptions& options = {}) {
    return listen(with_noise(sound), static_cast<int>(rate), "sound", options);
}

double cents(double hz, double reference) {
    return 1200 * std::log2(hz / reference);
}

/// Plucked notes of 0.6 s, the first after half a second.
std::vector<float> melody(const std::vector<double>& hertz) {
    std::vector<std::vector<float>> parts{support::silence(0.5, rate)};
    for (const double hz : hertz)
        parts.push_back(tone(hz, 0.6, true, parts.size()));
    return support::joined(parts);
}

const std::vector<double> notes_over_d3 = {293.9, 329.1, 372.4, 440.9, 392.3, 329.6, 293.9};

void check_melody(const Recording& recording) {
    REQUIRE(recording.notes.size() == notes_over_d3.size());
    for (std::size_t i = 0; i < notes_over_d3.size(); ++i) {
        CAPTURE(i);
        CHECK(std::abs(cents(recording.notes[i].pitch.hz, notes_over_d3[i])) < 1);
    }
}

} // namespace

TEST_CASE("A melody is heard over a drone an octave below, which is found") {
    for (const double db : {-6.0, -14.0}) {
        const Recording recording =
            heard(support::mixed({melody(notes_over_d3), at_db(tone(146.83, 5, false, 9), db)}));
        CAPTURE(db);
        check_melody(recording);
        REQUIRE(recording.drone.size() == 1);
        CHECK(std::abs(cents(recording.drone[0].hz, 146.83)) < recording.drone[0].half_width_cents);
        const Hearing hearing = hear({recording});
        CHECK(hearing.tonic_basis == TonicBasis::drone);
        CHECK(std::abs(cents(hearing.tonic_hz, 293.9)) < 1);
    }
}

TEST_CASE("A drone that is plucked again and again, and one of two strings") {
    const std::vector<float> again =
        support::joined({tone(146.83, 2.5, true, 9), tone(146.83, 2.5, true, 8)});
    check_melody(heard(support::mixed({melody(notes_over_d3), at_db(again, -6)})));
    const Recording recording =
        heard(support::mixed({melody(notes_over_d3), at_db(tone(146.83, 5, false, 9), -9),
                              at_db(tone(220, 5, false, 8), -9)}),
              {.drone_hz = {146.8, 220}});
    check_melody(recording);
    CHECK(recording.drone.size() == 2);
}

TEST_CASE("The drone's own octave is heard where the drone covers its first partial") {
    for (const std::uint64_t seed : {3u, 4u, 5u, 6u}) {
        CAPTURE(seed);
        std::vector<std::vector<float>> scale{support::silence(1, rate)};
        for (const double hz : {293.66, 330.37, 391.55, 440.49})
            scale.push_back(tone(hz, 1.2, true, scale.size()));
        const Recording recording =
            heard(support::mixed({support::joined(scale), at_db(tone(146.83, 6, false, seed), 2),
                                  at_db(tone(220, 6, false, seed + 10), 2)}),
                  {.drone_hz = {146.8, 220}});
        REQUIRE(!recording.notes.empty());
        CHECK(std::abs(cents(recording.notes[0].pitch.hz, 293.66)) < 1);
    }
}

TEST_CASE("Notes in unison with the drone are heard") {
    const std::vector<double> notes = {293.9, 146.83, 329.1, 440.9, 147.1, 392.3, 220.3};
    for (const double db : {-12.0, -20.0}) {
        const Recording recording =
            heard(support::mixed({melody(notes), at_db(tone(146.83, 5, false, 9), db)}));
        CAPTURE(db);
        REQUIRE(recording.notes.size() == notes.size());
        for (std::size_t i = 0; i < notes.size(); ++i) {
            const NotePitch& pitch = recording.notes[i].pitch;
            CHECK(std::abs(cents(pitch.hz, notes[i])) < std::max(0.05, pitch.half_width_cents));
        }
    }
}

TEST_CASE("One note alone, and a melody alone, have no drone") {
    CHECK(heard(tone(220, 3, false)).drone.empty());
    CHECK(heard(tone(220, 3, true)).drone.empty());
    CHECK(heard(melody(notes_over_d3)).drone.empty());
}

TEST_CASE("A string that rings on below, 20 dB softer, does not take the note down to it") {
    for (const double below : {2.0, 1.5, 3.0})
        for (const double hz : {247.3, 523.9}) {
            CAPTURE(below, hz);
            const Recording recording = heard(support::mixed(
                {tone(hz, 1.2, true), at_db(tone(hz / below * 1.002, 1.2, true, 5), -20)}));
            REQUIRE(recording.notes.size() == 1);
            CHECK(std::abs(cents(recording.notes[0].pitch.hz, hz)) < 0.5);
            REQUIRE(recording.notes[0].pitch.below);
            CHECK(std::abs(cents(recording.notes[0].pitch.below->hz, hz / below)) < 20);
            CHECK(recording.notes[0].pitch.below->softer_db > 13);
            REQUIRE(recording.remarks.size() == 1);
            CHECK(recording.remarks[0].starts_with("Also sounding below notes: "));
        }
    CHECK(!heard(tone(247.3, 1.2, true)).notes.at(0).pitch.below);
}

TEST_CASE("What rings on alone, much softer, is a remark and no note") {
    const Recording recording = heard(support::joined(
        {at_db(tone(164.8, 0.6, false), -32), tone(330.4, 0.6, true), tone(392.2, 0.6, true, 2)}));
    REQUIRE(recording.notes.size() == 2);
    REQUIRE(recording.remarks.size() == 1);
    CHECK(recording.remarks[0].find("164.8 Hz") != std::string::npos);
}

TEST_CASE("A soft attack is the start of one note") {
    for (const double rise_s : {0.08, 0.3, 0.8})
        for (const int shape : {0, 1, 2}) {
            CAPTURE(rise_s, shape);
            std::vector<float> sound = tone(233.7, 1.5, false);
            for (std::size_t i = 0; i < sound.size(); ++i) {
                const double t = std::min(1.0, static_cast<double>(i) / rate / rise_s);
                const double grown = shape == 0   ? t
                                     : shape == 1 ? 0.5 - 0.5 * std::cos(M_PI * t)
                                                  : 1 - std::exp(-3 * t);
                sound[i] *= static_cast<float>(grown);
            }
            const auto notes = heard(support::joined({support::silence(0.3, rate), sound})).notes;
            REQUIRE(notes.size() == 1);
            CHECK(notes[0].start_s == Approx(0.3).margin(0.01));
        }
}

TEST_CASE("A note begins where its sound does") {
    const Recording recording =
        heard(support::joined({support::silence(0.4, rate), tone(311.1, 0.8, true)}));
    REQUIRE(recording.notes.size() == 1);
    CHECK(recording.notes[0].start_s == Approx(0.4).margin(0.004));
}

/// A bar with free ends: its upper partials so loud beside the first, which dies away with 0.5 s.
std::vector<float> bar(double hz, double second_db, double third_db, double upper_decay_s) {
    const double levels[] = {0, second_db, third_db},
                 decays[] = {0.5, upper_decay_s, upper_decay_s / 2}, ratios[] = {1, 2.756, 5.404};
    std::vector<float> sound(static_cast<std::size_t>(1.2 * rate));
    for (std::size_t i = 0; i < sound.size(); ++i)
        for (std::size_t p = 0; p < std::size(ratios); ++p) {
            const double t = static_cast<double>(i) / rate;
            sound[i] +=
                static_cast<float>(0.2 * std::pow(10, levels[p] / 20) * std::exp(-t / decays[p])
                                   * std::sin(2 * M_PI * hz * ratios[p] * t));
        }
    return sound;
}

TEST_CASE("A bar with free ends is heard at its first partial, however strong the others are") {
    for (const double hz : {62.0, 83.8, 175.0, 220.5, 420.0, 523.3, 880.2, 1800.0})
        for (const double second_db : {-30, -12, 4})
            for (const double upper_decay_s : {0.05, 0.18, 0.35}) {
                CAPTURE(hz, second_db, upper_decay_s);
                const Recording recording = heard(bar(hz, second_db, second_db - 8, upper_decay_s));
                REQUIRE(recording.notes.size() == 1);
                CHECK(std::abs(cents(recording.notes[0].pitch.hz, hz)) < 0.1);
            }
}

TEST_CASE("The mean of a swing is that of whole turns of it") {
    for (const double seconds : {0.7, 0.95, 1.3}) {
        std::vector<double> track;
        for (double t = 0; t < seconds; t += 0.024)
            track.push_back(6000 + 3 * t + 20 * std::sin(2 * M_PI * (5.3 * t + 0.1)));
        const auto vibrato = vibrato_of(track, 0.024);
        REQUIRE(vibrato);
        CAPTURE(seconds);
        CHECK(vibrato->mean_cents == Approx(6000 + 1.5 * seconds).margin(0.3));
        CHECK(vibrato->rate_hz == Approx(5.3).margin(0.1));
        CHECK(vibrato->depth_cents == Approx(20).margin(0.5));
        CHECK(is_passing(track, 0.024) == false);
    }
    CHECK_FALSE(vibrato_of(std::vector<double>(40, 6000.0), 0.024));
    std::vector<double> glide;
    for (int i = 0; i < 9; ++i)
        glide.push_back(6000 + 12.0 * i);
    CHECK(is_passing(glide, 0.024));
}

TEST_CASE("Degrees a few cents apart are two where their doubts are smaller") {
    Recording recording;
    recording.name = "scale.wav";
    const auto add = [&](double c, double half_width) {
        RecordedNote note;
        note.end_s = 1;
        note.pitch.hz = 220 * std::exp2(c / 1200);
        note.pitch.half_width_cents = half_width;
        recording.notes.push_back(note);
    };
    add(0, 0.01), add(5, 0.01), add(700, 0.5), add(721.5, 0.5);
    CHECK(hear({recording}).pitches.size() == 4); // 21.5 cents: a comma
    recording.notes.clear();
    add(0, 12), add(21.5, 12);
    CHECK(hear({recording}).pitches.size() == 1);
}

TEST_CASE("A note without an attack begins where the pitch arrives") {
    const auto track = [](const std::vector<double>& cents) {
        std::vector<TrackFrame> frames;
        for (const double c : cents)
            frames.push_back({static_cast<float>(200 * std::exp2(c / 1200)), 1, 1});
        return frames;
    };
    // The line through the middle of the way, whatever the frames at its ends mix.
    const auto glide = track({400, 400, 390, 340, 240, 140, 55, 8, 0, 0, 0, 0});
    CHECK(arrival_in(glide, 10, 200).value() == Approx(6.4).margin(0.01));
    const auto rising = track({-400, -400, -390, -340, -240, -140, -55, -8, 0, 0, 0, 0});
    CHECK(arrival_in(rising, 10, 200).value() == Approx(6.4).margin(0.01));
    // A jump: half way.
    CHECK(arrival_in(track({400, 400, 400, 0, 0, 0}), 5, 200).value() == Approx(2.5).margin(0.01));
    // From silence, or hardly from another pitch.
    CHECK_FALSE(arrival_in(track({0, 0, 0, 0}), 3, 200));
    CHECK_FALSE(arrival_in(track({20, 15, 0, 0}), 3, 200));
    std::vector<TrackFrame> silence = track({0, 0, 0, 0, 0});
    silence[1].hz = 0;
    CHECK_FALSE(arrival_in(silence, 4, 200));
}

TEST_CASE("Speech is said to be no melody, and a legato is none of it") {
    const auto voice = [](const std::vector<std::pair<double, double>>& course) {
        std::vector<float> sound;
        double phase = 0, last = course.front().second;
        for (const auto& [seconds, cents_there] : course) {
            const auto count = static_cast<std::size_t>(seconds * rate);
            for (std::size_t i = 0; i < count; ++i) {
                const double way = static_cast<double>(i) / static_cast<double>(count);
                phase += 150 / rate * std::exp2((last + way * (cents_there - last)) / 1200);
                double value = 0;
                for (int n = 1; n <= 8; ++n)
                    value += 0.1 / n * std::sin(2 * M_PI * n * phase);
                sound.push_back(static_cast<float>(value));
            }
            last = cents_there;
        }
        return sound;
    };
    const auto has_remark = [](const Recording& recording) {
        return std::any_of(
            recording.remarks.begin(), recording.remarks.end(),
            [](const std::string& r) { return r.find("speech") != std::string::npos; });
    };
    const Recording legato =
        heard(voice({{0.8, 0}, {0.2, 500}, {0.8, 500}, {0.2, 200}, {0.8, 200}}));
    REQUIRE(legato.notes.size() == 3);
    CHECK_FALSE(has_remark(legato));
    for (const std::size_t note : {1, 2}) // they begin where the glides end
        CHECK(legato.notes[note].start_s == Approx(static_cast<double>(note)).margin(0.008));
    std::vector<std::vector<float>> syllables;
    for (const double to : {-300.0, 200.0, -150.0, 0.0, -400.0, 150.0}) {
        syllables.push_back(voice({{0.001, -to}, {0.2, to}}));
        syllables.push_back(support::silence(0.1, rate));
    }
    syllables.push_back(voice({{0.2, 100}}));
    CHECK(has_remark(heard(support::joined(syllables))));
}
