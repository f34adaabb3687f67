// A steady tone is one note, whatever its rate and noise, and its track keeps to its octave.

#include "support/tones.hpp"

#include <sectio/measure/between_lags.hpp>
#include <sectio/measure/recording.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace sectio::measure;
using support::Tone;

namespace {

Recording heard(const Tone& tone, std::uint64_t seed) {
    return listen(support::tone(tone, seed), static_cast<int>(tone.rate), "tone");
}

/// Frames that lie half a semitone or more off.
std::size_t frames_off(const Recording& recording, double hz) {
    std::size_t off = 0;
    for (const TrackFrame& frame : recording.track)
        off += frame.hz > 0 && std::abs(std::log2(static_cast<double>(frame.hz) / hz)) > 1.0 / 24;
    return off;
}

/// Like the correlation of a tone whose partials, up to the one named, fall by 1/n.
std::vector<float> correlation(double period, int partials) {
    std::vector<float> values(400);
    for (std::size_t lag = 0; lag < values.size(); ++lag)
        for (int n = 1; n <= partials; ++n)
            values[lag] += static_cast<float>(
                std::cos(2 * std::numbers::pi * n * static_cast<double>(lag) / period) / n / n);
    return values;
}

} // namespace

TEST_CASE("Partials near half the rate do not send the track to a multiple of the period") {
    const Tone tone =
        GENERATE(Tone{.hz = 300.9, .seconds = 1.7, .rate = 8000, .fundamental = 0.03},
                 Tone{.hz = 414.6, .rate = 192000, .plucked = false, .fundamental = 0.03},
                 Tone{.hz = 1415.7, .inharmonicity = 5e-4, .seconds = 1.7, .rate = 96000},
                 Tone{.hz = 409.8, .inharmonicity = 1.4e-4, .seconds = 1.5, .rate = 8000});
    for (std::uint64_t seed = 1; seed <= 4; ++seed) {
        Tone noisy = tone;
        noisy.noise_db = 20;
        const Recording recording = heard(noisy, seed);
        CAPTURE(tone.hz, seed);
        CHECK(recording.notes.size() == 1);
        CHECK(frames_off(recording, tone.hz) == 0);
    }
}

TEST_CASE("The pulses of a low note are no new attacks") {
    for (const std::uint64_t seed : {18U, 23U, 25U}) {
        const Tone tone{
            .hz = 30.25, .inharmonicity = 5e-5, .seconds = 1.4, .rate = 16000, .noise_db = 20};
        CHECK(heard(tone, seed).notes.size() == 1);
    }
}

TEST_CASE("A short low note in noise passes for no chord") {
    for (const std::uint64_t seed : {3U, 4U, 5U, 6U}) {
        const Tone tone{.hz = 33.86,
                        .seconds = 0.62,
                        .rate = 16000,
                        .plucked = false,
                        .fundamental = 0.03,
                        .noise_db = 10};
        const Recording recording = heard(tone, seed);
        REQUIRE(recording.notes.size() == 1);
        CHECK(std::abs(1200 * std::log2(recording.notes[0].pitch.hz / tone.hz)) < 0.3);
    }
}

TEST_CASE("A tone whose coarse pitch only seems to move is measured by its partials") {
    // Noise makes this one's periods wander by more than 15 cents.
    const Recording recording = listen(support::tone({.hz = 278.02261817638731,
                                                      .inharmonicity = 0.0005090703852509746,
                                                      .seconds = 0.75224722922069054,
                                                      .rate = 48000,
                                                      .fundamental = 0.03,
                                                      .noise_db = 10},
                                                     10392033134851156720U),
                                       48000, "tone");
    REQUIRE(recording.notes.size() == 1);
    CHECK(recording.notes[0].pitch.partials > 2);
    CHECK(std::abs(1200 * std::log2(recording.notes[0].pitch.hz / 278.02261817638731)) < 0.2);
}

TEST_CASE("A stiff string whose periods seem to swing is measured by its partials") {
    struct Case {
        Tone tone;
        std::uint64_t seed;
    };
    const Case c = GENERATE(Case{{.hz = 87.74701749358223,
                                  .inharmonicity = 0.0008157691877037893,
                                  .seconds = 0.682234214859342,
                                  .rate = 44100,
                                  .fundamental = 0.03,
                                  .noise_db = 10},
                                 10013730062801372091U},
                            Case{{.hz = 158.88054626637899,
                                  .inharmonicity = 0.0003401993772275696,
                                  .seconds = 0.6077621376707745,
                                  .rate = 192000,
                                  .fundamental = 0,
                                  .noise_db = 20},
                                 2266838471033279029U});
    const Recording recording = heard(c.tone, c.seed);
    REQUIRE(recording.notes.size() == 1);
    CHECK(recording.notes[0].pitch.partials > 2);
    CHECK(std::abs(1200 * std::log2(recording.notes[0].pitch.hz / c.tone.hz)) < 0.05);
}

TEST_CASE("A maximum between two lags is as high as one on a lag") {
    for (const double period : {26.0, 26.25, 26.5, 26.59, 26.9}) {
        const std::vector<float> values = correlation(period, 10); // to 0.38 of the rate
        for (const int multiple : {1, 2, 5}) {
            CAPTURE(period, multiple);
            const auto near = static_cast<std::size_t>(std::lround(multiple * period));
            const Top top = top_near(values, near);
            CHECK(top.lag == Approx(multiple * period).margin(2e-3));
            CHECK(top.value == Approx(values[0]).epsilon(2e-3));
        }
    }
    const std::vector<float> smooth = correlation(50.4, 1);
    CHECK(top_near(smooth, 353).lag == Approx(352.8).margin(0.01));
    std::vector<float> cut(smooth.begin(), smooth.begin() + 355); // a parabola near the end
    CHECK(top_near(cut, 353).lag == Approx(352.8).margin(0.01));
}
