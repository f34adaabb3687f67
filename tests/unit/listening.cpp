// What a listener hears: order, times, bounds, and samples that stay quiet.

#include <sectio/sound/listening.hpp>
#include <sectio/sound/messages.hpp>
#include <sectio/sound/tone.hpp>
#include <sectio/sound/wave_file.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>
#include <support/intervals.hpp>
#include <support/sound.hpp>

#include <algorithm>
#include <cmath>

using namespace sectio;
using namespace sectio::sound;

namespace {

TunedScale on(const char* degrees, const char* tonic = "D4") {
    return tuned(parse_degrees(degrees, ""), {tonic, std::nullopt});
}

support::Sound sounding(const std::vector<float>& samples) {
    return {sample_rate, {samples.begin(), samples.end()}};
}

std::string refusal(const char* degrees, const char* tonic, double seconds = 1.6) {
    return support::name_of(support::error_of([&] {
        ListeningOptions options;
        options.note_seconds = seconds;
        listen_to(on(degrees, tonic), options);
    }));
}

} // namespace

TEST_CASE("Listening: each degree, its key, the degree again; one on its key sounds once") {
    const Listening heard = listen_to(on("5/4"));
    REQUIRE(heard.notes.size() == 5); // D, the third three times, the octave
    CHECK_FALSE(heard.notes[1].neighbour);
    CHECK(heard.notes[2].neighbour);
    CHECK(heard.notes[2].pitch == pitch_of_key(66));
    CHECK(heard.notes[3].pitch == heard.notes[1].pitch);
    CHECK(heard.notes[4].number == 3);
    CHECK(heard.notes[0].start_s == 1);
    CHECK(heard.notes[1].start_s == Approx(2.9));
    CHECK(heard.notes[2].start_s == Approx(4.5));
    CHECK(heard.seconds == Approx(11.4));
}

TEST_CASE("Listening: a tonic whose frequency was rounded sounds once") {
    CHECK(listen_to(on("5/4", "293.6647679174Hz")).notes.size() == 5);
    CHECK(listen_to(on("5/4", "D4+0.03c")).notes.size() == 9);
}

TEST_CASE("Listening: degrees alone") {
    ListeningOptions options;
    options.neighbours = false;
    CHECK(listen_to(on("5/4,3/2"), options).notes.size() == 4);
}

TEST_CASE("Listening: what is too low, too high or too long is refused") {
    CHECK(refusal("5/4", "C-1") == "sound_pitch_out_of_range");
    CHECK(refusal("5/4", "C10") == "sound_pitch_out_of_range");
    CHECK(refusal("5/4,4/3,3/2,5/3,7/4,15/8,63/32,9/8,10/9", "D4", 30) == "degrees_not_rising");
    CHECK(refusal("10/9,9/8,8/7,7/6,6/5,5/4,9/7,4/3,7/5,3/2,8/5,5/3", "D4", 30)
          == "listening_too_long");
}

TEST_CASE("Listening: starts quietly and never goes beyond a quarter of full scale") {
    ListeningOptions options;
    options.drones = {support::pitch("D3"), support::pitch("A3")};
    const support::Sound sound = sounding(samples_of(listen_to(on("5/4,3/2"), options)));
    CHECK(sound.peak(0, 100) == Approx(0.25).margin(1e-6));
    CHECK(sound.peak(0, 0.1) < 0.001);
    CHECK(sound.peak(0, 1) < 0.02);
    CHECK(std::abs(sound.samples.front()) < 1e-6);
    CHECK(std::abs(sound.samples.back()) < 1e-4);
}

TEST_CASE("Listening: the swell is as long as asked") {
    ListeningOptions options;
    const auto early = [&] {
        return sounding(samples_of(listen_to(on("5/4,3/2"), options))).peak(1, 2);
    };
    const double usual = early();
    options.swell_s = 0.5; // over before the first note, so that it is as strong as any
    CHECK(early() > 0.2);
    CHECK(usual < 0.1);
}

TEST_CASE("Plucked string: its partials decay, the higher the sooner") {
    std::vector<float> samples(2 * sample_rate);
    add_plucked(samples, {220, 2, 1});
    const support::Sound sound = sounding(samples);
    CHECK(sound.peak(0, 2) <= 1);
    CHECK(sound.peak(0, 0.1) > 4 * sound.peak(1.5, 1.6));
    CHECK(sound.peak(1.999, 2) < 0.001);
}

TEST_CASE("Plucked string: within 0.02 cents of its pitch while it fades; drone: within 0.001") {
    const double hz = GENERATE(30.0, 60.1, 146.8323839587, 329.627, 1234.5678, 5000.0);
    CAPTURE(hz);
    std::vector<float> plucked(2 * sample_rate), drone(6 * sample_rate);
    add_plucked(plucked, {hz, 2, 1});
    add_drone(drone, {hz, 6, 1});
    using support::cents_between, support::measured_hz;
    CHECK(std::abs(cents_between(measured_hz(sounding(plucked), 0.1, 1, hz * 1.001), hz)) < 0.02);
    CHECK(std::abs(cents_between(measured_hz(sounding(drone), 2.5, 1, hz * 1.001), hz)) < 0.001);
}

TEST_CASE("WAVE file: the header and the samples are there") {
    const std::vector<float> samples{0, 0.5F, -0.5F};
    const std::string bytes = wave_bytes(samples);
    CHECK(bytes.substr(0, 4) == "RIFF");
    CHECK(bytes.substr(8, 4) == "WAVE");
    REQUIRE(bytes.size() == 44 + 9 + 1);                       // a chunk's length is even
    CHECK(bytes.substr(4, 4) == std::string("\x2E\0\0\0", 4)); // all behind it
    CHECK(bytes.substr(40, 4) == std::string("\x09\0\0\0", 4));
    CHECK(bytes.substr(44) == std::string("\0\0\0\0\0\x40\0\0\xC0\0", 10));
    const std::string loud = wave_bytes(std::vector<float>{2, -2});
    CHECK(loud.substr(44) == "\xFF\xFF\x7F\x01" + std::string("\0\x80", 2));
    CHECK(loud.substr(4, 4) == std::string("\x2A\0\0\0", 4));
}

TEST_CASE("Drone: it swells for two seconds, or half of a shorter one") {
    const auto drone = [](double seconds) {
        std::vector<float> samples(static_cast<std::size_t>(seconds * sample_rate));
        add_drone(samples, {220, seconds, 1});
        return sounding(samples);
    };
    const support::Sound whole = drone(12), brief = drone(1);
    CHECK(whole.peak(2, 3) == Approx(whole.peak(5, 6)));
    CHECK(whole.peak(9, 10) == Approx(whole.peak(5, 6)));
    CHECK(whole.peak(0.9, 1.1) < 0.7 * whole.peak(5, 6));
    CHECK(brief.peak(0.49, 0.51) > 0.9 * whole.peak(5, 6));
}
