// A recording with several notes, and those that have none.

#include "support/errors.hpp"
#include "support/paths.hpp"
#include "support/tones.hpp"

#include <sectio/measure/messages.hpp>
#include <sectio/measure/recording.hpp>
#include <sectio/measure/sound_file.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>

using namespace sectio::measure;
using support::Tone;

namespace {

constexpr int rate = 22050;

std::vector<float> plucked(double hz, double seconds = 0.8, std::uint64_t seed = 1) {
    return support::tone(
        {.hz = hz, .inharmonicity = 1e-4, .seconds = seconds, .rate = rate, .noise_db = 45}, seed);
}

sectio::Message refusal(const std::vector<float>& sound) {
    try {
        listen(sound, rate, "test");
    } catch (const sectio::Error& e) {
        return e.id();
    }
    FAIL("the recording was measured");
    return sectio::message::recording_silent;
}

} // namespace

TEST_CASE("A slow scale is cut into its notes") {
    const double steps[] = {0, 182, 294, 498, 702, 884, 996, 1200, 1200};
    std::vector<std::vector<float>> parts = {support::silence(0.3, rate)};
    for (double cents : steps)
        parts.push_back(plucked(146.83 * std::exp2(cents / 1200)));
    const Recording recording = listen(support::joined(parts), rate, "scale");
    REQUIRE(recording.notes.size() == std::size(steps)); // the last is the same string struck again
    for (std::size_t i = 0; i < std::size(steps); ++i) {
        INFO("note " << i);
        const RecordedNote& note = recording.notes[i];
        CHECK(1200 * std::log2(note.pitch.hz / 146.83) == Approx(steps[i]).margin(0.2));
        CHECK(note.start_s == Approx(0.3 + 0.8 * static_cast<double>(i)).margin(0.08));
    }
    CHECK(recording.remarks.empty());
}

TEST_CASE("A bowed scale without a new attack is cut where the pitch changes") {
    std::vector<std::vector<float>> parts;
    for (double cents : {0.0, 100.0, 150.0, 350.0})
        parts.push_back(
            support::tone({.hz = 300 * std::exp2(cents / 1200), .rate = rate, .plucked = false}));
    const Recording recording = listen(support::joined(parts), rate, "bowed");
    REQUIRE(recording.notes.size() == 4);
    CHECK(1200 * std::log2(recording.notes[2].pitch.hz / 300) == Approx(150).margin(0.5));
}

TEST_CASE("Notes that meet without a rest are one note each") {
    struct Melody {
        double base_hz, rate;
        bool plucked;
        double seconds;
        std::vector<double> cents;
    };
    const std::vector<Melody> melodies = {
        {351.55, 8000, true, 1.275, {303, 120, 823, 1162, 159, 1198}},
        {334.96, 16000, false, 0.953, {482, 76, 312, 667, 401, 914}},
        {397.00, 16000, false, 0.561, {982, 459, 290, 1005, 605, 752}},
        {450.57, 44100, false, 1.032, {516, 971, 102, 882, 84, 580}},
        {263.36, 16000, false, 1.219, {621, 265, 1093, 310, 1160, 447}},
    };
    for (const Melody& melody : melodies) {
        CAPTURE(melody.base_hz);
        std::vector<std::vector<float>> parts;
        for (const double cents : melody.cents)
            parts.push_back(support::tone({.hz = melody.base_hz * std::exp2(cents / 1200),
                                           .seconds = melody.seconds,
                                           .rate = melody.rate,
                                           .plucked = melody.plucked,
                                           .noise_db = 35},
                                          10 + parts.size()));
        const Recording recording =
            listen(support::joined(parts), static_cast<int>(melody.rate), "melody");
        REQUIRE(recording.notes.size() == melody.cents.size());
        for (std::size_t i = 0; i < melody.cents.size(); ++i)
            CHECK(1200 * std::log2(recording.notes[i].pitch.hz / melody.base_hz)
                  == Approx(melody.cents[i]).margin(0.05));
    }
}

// Two notes a fifth or a fourth apart have a common multiple of their periods, which stays clear
// while one passes into the other.
TEST_CASE("Bowed fifths and fourths are cut into their notes") {
    const double steps[] = {0, 702, 0, 498, 1200, 702};
    std::vector<std::vector<float>> parts;
    for (double cents : steps)
        parts.push_back(support::tone({.hz = 213.1 * std::exp2(cents / 1200),
                                       .seconds = 0.5,
                                       .rate = rate,
                                       .plucked = false,
                                       .noise_db = 40}));
    const Recording recording = listen(support::joined(parts), rate, "fifths");
    REQUIRE(recording.notes.size() == std::size(steps));
    for (std::size_t i = 0; i < std::size(steps); ++i)
        CHECK(1200 * std::log2(recording.notes[i].pitch.hz / 213.1)
              == Approx(steps[i]).margin(0.5));
}

TEST_CASE("A long note is one note, measured in pieces") {
    const Recording recording = listen(
        support::tone({.hz = 196, .seconds = 30, .rate = rate, .plucked = false, .noise_db = 30}),
        rate, "long");
    REQUIRE(recording.notes.size() == 1);
    CHECK(recording.notes[0].end_s > 29.5);
    CHECK(1200 * std::log2(recording.notes[0].pitch.hz / 196) == Approx(0).margin(0.01));
}

TEST_CASE("What has no pitch is refused in words") {
    using namespace sectio::message;
    CHECK(refusal(support::silence(1, rate)) == sectio::Message(recording_silent));
    CHECK(refusal(support::noise(2, rate)) == sectio::Message(recording_without_pitch));
    std::vector<float> click = support::silence(1, rate);
    click[11000] = 0.9F;
    CHECK(refusal(click) == sectio::Message(recording_without_pitch));
    std::vector<float> blip = support::joined(
        {support::silence(0.5, rate), plucked(60, 0.06), support::silence(0.5, rate)});
    CHECK(refusal(blip) == sectio::Message(recording_notes_too_short));
}

TEST_CASE("Several notes at once are refused") {
    const std::vector<std::vector<double>> chords = {
        {200, 250, 300}, // 4:5:6, which has a common period
        {220, 220 * std::exp2(4.0 / 12), 220 * std::exp2(7.0 / 12)}, // the same in 12 equal steps
        {200, 300},                                                  // a fifth
        {220, 220 * std::exp2(5.0 / 12)},
        {220, 233.08},
        {110, 174.61, 261.63},
    };
    for (const auto& chord : chords) {
        std::vector<std::vector<float>> parts;
        for (double hz : chord)
            parts.push_back(plucked(hz, 1.5, static_cast<std::uint64_t>(hz)));
        INFO(chord[0] << " " << chord[1]);
        CHECK(refusal(support::mixed(parts))
              == sectio::Message(sectio::message::recording_several_notes));
    }
}

TEST_CASE("Clipping is told, and the pitch stays") {
    std::vector<float> sound = support::tone({.hz = 220, .rate = rate, .plucked = false});
    for (float& value : sound)
        value = std::clamp(4 * value, -1.0F, 1.0F);
    const Recording recording = listen(sound, rate, "loud");
    REQUIRE(recording.remarks.size() == 1);
    CHECK(recording.remarks[0].find("clipped") != std::string::npos);
    CHECK(1200 * std::log2(recording.notes.at(0).pitch.hz / 220) == Approx(0).margin(0.01));
}

TEST_CASE("Channels that cancel each other are measured alone, and others together") {
    const support::TempDir folder;
    const std::vector<float> sound = plucked(220);
    const auto heard = [&](const std::function<std::pair<float, float>(std::size_t)>& at) {
        std::vector<float> frames;
        for (std::size_t i = 0; i < sound.size(); ++i) {
            const auto [left, right] = at(i);
            frames.insert(frames.end(), {left, right});
        }
        support::write_file(folder / "two.wav", support::wave_file(frames, rate, 2));
        Recording recording = listen(folder / "two.wav");
        REQUIRE(recording.notes.size() == 1);
        CHECK(1200 * std::log2(recording.notes[0].pitch.hz / 220) == Approx(0).margin(0.3));
        return recording.remarks;
    };
    const auto turned = [&](float part) {
        return heard([&, part](std::size_t i) { return std::pair(sound[i], -part * sound[i]); });
    };
    for (const float part : {1.0F, 0.95F}) {
        const std::vector<std::string> remarks = turned(part);
        REQUIRE(remarks.size() == 1);
        CHECK(remarks[0].ends_with("channel 1 was measured alone."));
    }
    CHECK(turned(0.5F).empty());
    CHECK(turned(0).empty());
    CHECK(turned(-1).empty());
    const auto second =
        heard([&](std::size_t i) { return std::pair(-0.95F * sound[i], sound[i]); });
    REQUIRE(second.size() == 1);
    CHECK(second[0].ends_with("channel 2 was measured alone."));
}

TEST_CASE("A sound of 256 channels is read, one of 257 refused") {
    const auto read = [](int channels) {
        const support::TempDir folder;
        const auto silence = std::vector<float>(static_cast<std::size_t>(20 * channels));
        support::write_file(folder / "many.wav", support::wave_file(silence, 44100, channels));
        return support::name_of(support::error_of([&] { SoundFile sound(folder / "many.wav"); }));
    };
    CHECK(read(256) == "no error");
    CHECK(read(257) == "sound_channels");
}
