// Pitches that wander, as those of bows and voices do, are told at their mean; what only seems to
// wander is not.

#include "support/tones.hpp"

#include <sectio/measure/note_meter.hpp>
#include <sectio/measure/recording.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <vector>

using namespace sectio::measure;

namespace {

constexpr double rate = 22050, hz = 330, turn = 2 * std::numbers::pi;

using Course = std::function<double(double)>; ///< cents at a second

/// Twelve partials that keep together, sustained.
std::vector<float> bowed(const Course& cents, double seconds, double about_hz = hz) {
    std::vector<float> sound;
    double phase = 0;
    for (double t = 0; t < seconds; t += 1 / rate) {
        double value = 0;
        for (int n = 1; n <= 12; ++n)
            value += std::sin(turn * n * phase + n * n) / n;
        sound.push_back(
            static_cast<float>(0.2 * value * std::min({1.0, t / 0.03, (seconds - t) / 0.03})));
        phase += about_hz * std::exp2(cents(t) / 1200) / rate;
    }
    return sound;
}

double mean(const Course& cents, double seconds) {
    double sum = 0;
    for (int i = 0; i < 1000; ++i)
        sum += cents((i + 0.5) / 1000 * seconds) / 1000;
    return sum;
}

/// Calm for a while, and off for the rest: slower than the note lasts.
Course slowly(double depth, double turns_a_second, double from) {
    return [=](double t) { return depth * std::sin(turn * (turns_a_second * t + from)); };
}

double cents_off(const NotePitch& pitch) {
    return 1200 * std::log2(pitch.hz / hz);
}

} // namespace

TEST_CASE("A bowed pitch that wanders is told at its mean, not at its calmest part") {
    const double seconds = GENERATE(0.6, 1.0, 1.7);
    for (const double from : {0.0, 0.2, 0.4, 0.6, 0.8}) {
        const Course cents = slowly(5, 0.7, from);
        const Recording recording =
            listen(support::joined({support::silence(0.3, rate), bowed(cents, seconds),
                                    support::silence(0.3, rate)}),
                   static_cast<int>(rate), "bowed");
        CAPTURE(seconds, from);
        REQUIRE(recording.notes.size() == 1);
        const NotePitch& pitch = recording.notes[0].pitch;
        const double off = std::abs(cents_off(pitch) - mean(cents, seconds));
        CAPTURE(off, pitch.half_width_cents);
        CHECK(off < pitch.half_width_cents);
        CHECK(off < 0.8);
        CHECK(pitch.half_width_cents < 3);
        CHECK(pitch.wander_cents > 0.5);
    }
}

TEST_CASE("A wandering pitch over a drone has a half width that holds its mean") {
    std::vector<std::vector<float>> parts{support::silence(0.3, rate)};
    std::vector<double> truths;
    for (int i = 0; i < 6; ++i) {
        const Course cents = slowly(5, 0.9, 0.17 * i);
        const double about = hz * std::exp2((i * 200 % 700) / 1200.0);
        truths.push_back(about * std::exp2(mean(cents, 0.8) / 1200));
        parts.push_back(bowed(cents, 0.8, about));
        parts.push_back(support::silence(0.08, rate));
    }
    std::vector<float> drone = bowed([](double) { return 0.0; }, 5.6, hz / 2);
    for (float& value : drone)
        value *= 0.4F;
    const Recording recording =
        listen(support::mixed({support::joined(parts), drone}), static_cast<int>(rate), "bowed");
    REQUIRE(recording.drone.size() == 1);
    REQUIRE(recording.notes.size() == truths.size());
    for (std::size_t i = 0; i < truths.size(); ++i) {
        const NotePitch& pitch = recording.notes[i].pitch;
        CAPTURE(i, 1200 * std::log2(pitch.hz / truths[i]), pitch.half_width_cents);
        CHECK(std::abs(1200 * std::log2(pitch.hz / truths[i])) < pitch.half_width_cents);
        CHECK(pitch.half_width_cents < 8);
    }
}

TEST_CASE("The mean of a swing that grows is known far better than the swing is wide") {
    const double seconds = 1.2, turns_a_second = GENERATE(4.8, 5.5, 6.2);
    for (const double from : {0.0, 0.25, 0.5, 0.75}) {
        const Course cents = [=](double t) {
            return 30 * std::min(1.0, t / 0.3) * std::sin(turn * (turns_a_second * t + from));
        };
        const Recording recording =
            listen(support::joined({support::silence(0.3, rate), bowed(cents, seconds),
                                    support::silence(0.3, rate)}),
                   static_cast<int>(rate), "bowed");
        CAPTURE(turns_a_second, from);
        REQUIRE(recording.notes.size() == 1);
        const NotePitch& pitch = recording.notes[0].pitch;
        CAPTURE(cents_off(pitch), mean(cents, seconds), pitch.half_width_cents);
        CHECK(std::abs(cents_off(pitch) - mean(cents, seconds)) < pitch.half_width_cents);
        CHECK(pitch.half_width_cents < 2.8);
    }
}

TEST_CASE("What keeps still and then leaves does not wander") {
    const Course leaves = [](double t) { return t < 1 ? 0 : 150 * (t - 1); };
    NoteMeter meter(rate, 0.4 * rate);
    const NotePitch pitch = meter.measure(bowed(leaves, 1.12), hz);
    CHECK(std::abs(cents_off(pitch)) < 0.01);
    CHECK(pitch.half_width_cents < 0.05);
}

TEST_CASE("Quick notes on one bow are notes where their pitch wanders too") {
    constexpr double note_s = 0.125;
    const std::vector<double> steps = {0, 204, 498, 294, 702, 386, 590, 182, 498, 0};
    const auto step_at = [&](double t) {
        return steps[std::min(steps.size() - 1, static_cast<std::size_t>(t / note_s))];
    };
    const Course wander = [](double t) {
        return 1.5 * std::sin(turn * 13 * t) + 1.5 * std::sin(turn * 8.3 * t);
    };
    const Recording recording = listen(bowed([&](double t) { return step_at(t) + wander(t); },
                                             note_s * static_cast<double>(steps.size())),
                                       static_cast<int>(rate), "bowed");
    const auto right =
        std::count_if(recording.notes.begin(), recording.notes.end(), [&](const RecordedNote& n) {
            return std::abs(cents_off(n.pitch) - step_at((n.start_s + n.end_s) / 2)) < 5;
        });
    CHECK(right >= 9);
}
