// What players' recordings hold and lone notes do not: strings that ring on into the next note,
// drones that are struck again, notes that come again and again, quick ones, scoops.

#include "support/tones.hpp"

#include <sectio/measure/drone.hpp>
#include <sectio/measure/recording.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

using namespace sectio::measure;

namespace {

constexpr double rate = 22050;

struct PlayedNote {
    double start_s, hz, seconds;
    double level = 1;
    double attack_s = 0;
};

void add(std::vector<float>& sound, const std::vector<float>& other, double start_s) {
    const auto first = static_cast<std::size_t>(start_s * rate);
    sound.resize(std::max(sound.size(), first + other.size()));
    for (std::size_t i = 0; i < other.size(); ++i)
        sound[first + i] += 0.3F * other[i];
}

std::vector<float> played(const std::vector<PlayedNote>& notes) {
    std::vector<float> sound;
    for (const PlayedNote& n : notes) {
        std::vector<float> tone = support::tone(
            {.hz = n.hz, .seconds = n.seconds, .rate = rate, .plucked = n.attack_s == 0},
            static_cast<std::uint64_t>(100 * n.start_s));
        for (std::size_t i = 0; i < tone.size(); ++i)
            tone[i] *= static_cast<float>(
                n.level
                * std::min(1.0, static_cast<double>(i) / rate / std::max(n.attack_s, 1e-6)));
        add(sound, tone, n.start_s);
    }
    std::vector<float> noise = support::noise(static_cast<double>(sound.size()) / rate, rate, 7);
    for (float& value : noise)
        value *= 1e-3F;
    add(sound, noise, 0);
    return sound;
}

/// Each note sounds for `rings_s` beyond the beginning of the next.
std::vector<PlayedNote> melody(const std::vector<double>& hertz, double step_s, double rings_s) {
    std::vector<PlayedNote> notes;
    for (const double hz : hertz)
        notes.push_back({0.4 + step_s * static_cast<double>(notes.size()), hz, step_s + rings_s});
    return notes;
}

/// How many of the notes are heard within a cent, at about their time.
std::size_t right(const Recording& recording, const std::vector<PlayedNote>& notes) {
    return static_cast<std::size_t>(
        std::count_if(notes.begin(), notes.end(), [&](const PlayedNote& n) {
            return std::any_of(recording.notes.begin(), recording.notes.end(),
                               [&](const RecordedNote& heard) {
                                   return std::abs(heard.start_s - n.start_s) < 0.05
                                          && std::abs(1200 * std::log2(heard.pitch.hz / n.hz)) < 1;
                               });
        }));
}

Recording heard(const std::vector<float>& sound) {
    return listen(sound, static_cast<int>(rate), "played");
}

const std::vector<double> scale = {293.9, 329.1, 372.4, 392.3, 440.9, 392.3, 372.4, 329.6};

/// Over a string of D3 that sounds all the time, until the last note ends.
std::vector<float> over_drone(const std::vector<PlayedNote>& notes, double level) {
    std::vector<float> sound = played(notes);
    std::vector<float> drone = support::tone({.hz = 146.83,
                                              .seconds = static_cast<double>(sound.size()) / rate,
                                              .rate = rate,
                                              .plucked = false},
                                             9);
    for (float& value : drone)
        value *= static_cast<float>(level);
    add(sound, drone, 0);
    return sound;
}

} // namespace

TEST_CASE("A note is heard among the strings that still ring") {
    const std::vector<PlayedNote> notes = melody(scale, 0.4, 0.3);
    const Recording recording = heard(played(notes));
    CHECK(recording.notes.size() == notes.size());
    CHECK(right(recording, notes) == notes.size());
}

TEST_CASE("A note that decays to the string that sounds below it is one note") {
    for (const double ratio : {2.0, 3.0})
        for (const double hz : {250.0, 353.04, 394.8}) {
            const std::vector<PlayedNote> notes{{0, hz / ratio, 2.2, 0.1, 0.01}, {0.2, hz, 1.5}};
            CAPTURE(ratio, hz);
            const Recording recording = heard(played(notes));
            CHECK(right(recording, {notes[1]}) == 1);
            CHECK(recording.notes.back().pitch.hz == Approx(hz).epsilon(0.001));
            CHECK(recording.notes.back().end_s > 1);
        }
}

TEST_CASE("A note is heard over a string that was heard alone for a shorter time than both have as "
          "their period") {
    // In the windows of their common period, 16 of them, the older one fills less than half.
    for (const double ratio : {6.0 / 5, 5.0 / 4, 4.0 / 5, 2.0 / 3}) {
        const std::vector<PlayedNote> notes{{0, 158.3, 2.2, 0.5}, {0.2, 158.3 * ratio, 1.5}};
        CAPTURE(ratio);
        CHECK(right(heard(played(notes)), {notes[1]}) == 1);
    }
}

TEST_CASE("Quick notes that are struck are notes") {
    const std::vector<PlayedNote> notes = melody(scale, 0.125, 0.01);
    CHECK(right(heard(played(notes)), notes) >= 6);
}

TEST_CASE("Quick bowed notes are heard from their beginning") {
    std::vector<PlayedNote> notes;
    for (const double hz : {282.8, 298.2, 160.2, 199.4, 159.9, 188.5, 256.6, 213.2, 240.4, 319.4})
        notes.push_back({0.4 + 0.125 * static_cast<double>(notes.size()), hz, 0.125, 1, 0.04});
    CHECK(right(heard(played(notes)), notes) >= 9);
}

TEST_CASE("A low string whose partials above the fortieth are as strong is one note") {
    for (const double hz : {35.6, 47.3}) {
        std::vector<float> sound = support::noise(1, rate);
        for (std::size_t i = 0; i < sound.size(); ++i) {
            double sum = 0;
            for (int n = 1; n * hz < 6500; ++n)
                sum +=
                    std::sin(2 * std::numbers::pi * hz * n * static_cast<double>(i) / rate + n * n);
            sound[i] = 1e-5F * sound[i] + static_cast<float>(0.02 * sum);
        }
        const Recording recording = heard(sound);
        REQUIRE(recording.notes.size() == 1);
        CHECK(recording.notes[0].pitch.hz == Approx(hz).epsilon(1e-5));
    }
}

TEST_CASE("Two notes that come again and again are no drone") {
    constexpr double highest_hz = 9000;
    for (const double rings_s : {0.2, 0.3}) {
        const std::vector<PlayedNote> notes = melody(
            {273.7, 247.9, 273.7, 247.9, 273.7, 247.9, 273.7, 247.9}, rings_s + 0.3, rings_s);
        const std::vector<float> sound = played(notes);
        DroneFinder finder(rate, highest_hz);
        finder.feed(sound);
        CHECK(finder.found({}).empty());
        CHECK(right(heard(sound), notes) == notes.size());
    }
}

TEST_CASE("A drone is known by its partials where its first one is weak, and struck again") {
    const std::vector<PlayedNote> notes = melody(scale, 0.6, 0.1);
    std::vector<float> drone(static_cast<std::size_t>(5.6 * rate));
    for (std::size_t i = 0; i < drone.size(); ++i) {
        const double t = static_cast<double>(i) / rate, since = std::fmod(t, 1.3);
        for (int n = 2; n <= 24; ++n)
            drone[i] += static_cast<float>(
                0.03 / std::sqrt(n) * std::exp(-since * (0.3 + 0.1 * n))
                * std::sin(2 * std::numbers::pi * std::fmod(107.31 * n * t, 1.0) + n * n));
    }
    std::vector<float> sound = played(notes);
    add(sound, drone, 0);
    const Recording recording = heard(sound);
    REQUIRE(recording.drone.size() == 1);
    CHECK(recording.drone[0].hz == Approx(107.31).epsilon(3e-3));
    CHECK(recording.notes.size() == notes.size());
    CHECK(right(recording, notes) == notes.size());
}

TEST_CASE("A pitch that wanders over a drone has a half width that holds it") {
    std::vector<float> sound(static_cast<std::size_t>(5.4 * rate));
    for (std::size_t i = 0; i < sound.size(); ++i)
        for (int n = 1; n <= 20; ++n)
            sound[i] += static_cast<float>(
                0.02 / n
                * std::sin(2 * std::numbers::pi
                               * std::fmod(146.83 * n * static_cast<double>(i) / rate, 1.0)
                           + n * n));
    std::vector<double> truth;
    for (const double hz : scale) {
        std::vector<float> note(static_cast<std::size_t>(0.55 * rate));
        double turns = 0, sum = 0;
        for (std::size_t i = 0; i < note.size(); ++i) {
            const double t = static_cast<double>(i) / rate + 7 * static_cast<double>(truth.size());
            const double off = 2 * std::sin(6.1 * t) + 1.5 * std::sin(22 * t);
            turns += hz * std::exp2(off / 1200) / rate, sum += off;
            for (int n = 1; n <= 12; ++n)
                note[i] += static_cast<float>(
                    0.2 / n * std::min(1.0, static_cast<double>(std::min(i, note.size() - i)) / 400)
                    * std::sin(2 * std::numbers::pi * std::fmod(n * turns, 1.0) + n));
        }
        add(sound, note, 0.4 + 0.6 * static_cast<double>(truth.size()));
        truth.push_back(hz * std::exp2(sum / static_cast<double>(note.size()) / 1200));
    }
    const Recording recording = heard(sound);
    REQUIRE(recording.notes.size() == truth.size());
    int held = 0;
    for (std::size_t i = 0; i < truth.size(); ++i) {
        const NotePitch& pitch = recording.notes[i].pitch;
        held += std::abs(1200 * std::log2(pitch.hz / truth[i])) <= pitch.half_width_cents;
    }
    CHECK(held >= 7);
}

TEST_CASE("A voice that comes to a note from below sings one note") {
    std::vector<float> sound(static_cast<std::size_t>(3.2 * rate));
    double turns = 0;
    for (std::size_t i = 0; i < sound.size(); ++i) {
        const double t = static_cast<double>(i) / rate, since = std::fmod(t, 0.8);
        const double loud = since > 0.74 ? 0 : std::min(1.0, std::min(since, 0.74 - since) / 0.05);
        const double off = since < 0.14
                               ? 120 * (since / 0.14 - 1)
                               : 30 * std::sin(2 * std::numbers::pi * 5.4 * (since - 0.14));
        turns += scale[static_cast<std::size_t>(t / 0.8)] * std::exp2(off / 1200) / rate;
        for (int n = 1; n <= 15; ++n)
            sound[i] += static_cast<float>(
                0.05 * loud / n * std::sin(2 * std::numbers::pi * std::fmod(n * turns, 1.0)));
    }
    CHECK(heard(sound).notes.size() == 4);
}

TEST_CASE("The note with which the sound ends is heard however short, and lasts to the end") {
    std::vector<PlayedNote> notes = melody(scale, 0.4, 0);
    notes.back().seconds = 0.13;
    const std::vector<float> sound = over_drone(notes, 0.3);
    const Recording recording = heard(sound);
    CHECK(right(recording, notes) == notes.size());
    CHECK(std::abs(recording.notes.back().end_s - recording.seconds) < 0.01);
}

TEST_CASE("A quick note over a drone is heard after a louder one") {
    std::vector<PlayedNote> notes = melody(scale, 0.4, 0);
    for (const double hz : {293.9, 392.3, 440.9, 372.4, 329.6, 440.9, 392.3})
        notes.push_back({notes.back().start_s + notes.back().seconds, hz, 0.14,
                         notes.size() % 2 == 0 ? 0.6 : 1.0});
    notes.push_back({notes.back().start_s + notes.back().seconds, 329.6, 0.4});
    CHECK(right(heard(over_drone(notes, 0.25)), notes) == notes.size());
}

TEST_CASE("A soft attack over a drone begins one note") {
    for (const auto [silent_s, attack_s, drone] :
         {std::array{0.02, 0.12, 0.5}, {0.1, 0.08, 0.25}}) {
        std::vector<PlayedNote> notes = melody(scale, 0.5, -silent_s);
        for (std::size_t i = 0; i < notes.size(); ++i)
            notes[i].attack_s = attack_s + 0.02 * static_cast<double>(i);
        CAPTURE(silent_s);
        CHECK(heard(over_drone(notes, drone)).notes.size() == notes.size());
    }
}
