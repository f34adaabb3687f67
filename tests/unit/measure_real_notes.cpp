// What notes of real instruments have and lone tones do not, and general methods are not led astray
// by: an organ's ranks, a rattle far above a bar, a blow that rings with its string.

#include "support/tones.hpp"

#include <sectio/measure/recording.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace sectio::measure;

namespace {

constexpr double rate = 44100;

struct Part {
    double ratio, db;
    double fall_db = 0; ///< a second
};

/// Over noise 60 dB below a full partial.
std::vector<float> sound_of(double hz, const std::vector<Part>& parts) {
    std::vector<float> sound = support::noise(1.5, rate);
    for (std::size_t i = 0; i < sound.size(); ++i) {
        const double t = static_cast<double>(i) / rate;
        double sum = 0;
        for (const Part& part : parts)
            sum +=
                std::pow(10, (part.db - part.fall_db * t) / 20)
                * std::sin(2 * std::numbers::pi * std::fmod(part.ratio * hz * t, 1.0) + part.ratio);
        sound[i] = 2e-4F * sound[i] + static_cast<float>(0.1 * std::min(1.0, t / 0.01) * sum);
    }
    return sound;
}

} // namespace

TEST_CASE("A low note of an organ is itself though its octaves have more partials") {
    std::vector<Part> parts;
    for (int n = 1; n <= 8; ++n)
        parts.push_back({static_cast<double>(n), -3.0 * n});
    for (const int rank : {2, 8})
        for (int n = 1; n * rank <= 56; ++n)
            parts.push_back({static_cast<double>(n * rank), -4.0 - 8 * std::log2(n)});
    const Recording recording = listen(sound_of(87.6, parts), 44100, "organ");
    REQUIRE(recording.notes.size() == 1);
    CHECK(recording.notes[0].pitch.hz == Approx(87.6).epsilon(1e-3));
}

TEST_CASE("A partial far above the others speaks for no lower pitch") {
    std::vector<Part> parts{{1, 0}, {3, -33}, {4, -35}, {31.0 / 3, -22}};
    for (const int n : {1, 2, 4, 5, 7, 8, 10, 11, 13, 14})
        parts.push_back({n / 3.0, -40});
    const Recording recording = listen(sound_of(207.6, parts), 44100, "bar");
    REQUIRE(recording.notes.size() == 1);
    CHECK(recording.notes[0].pitch.hz == Approx(207.6).epsilon(1e-5));
}

TEST_CASE("A blow that rings at first makes no second note of what is periodic after it") {
    std::vector<Part> parts{{18.557, 6, 60}};
    for (int n = 1; n <= 8; ++n)
        parts.push_back({static_cast<double>(n), -6.0 * std::log2(n), 10});
    const Recording recording = listen(sound_of(155.6, parts), 44100, "struck");
    REQUIRE(recording.notes.size() == 1);
    CHECK(recording.notes[0].pitch.hz == Approx(155.6).epsilon(1e-4));
}

TEST_CASE("What swings with a note is of it, and what sounds below without swinging is not") {
    // Partials of 220 Hz, swinging; the odd ones 22 dB softer, or those of a string that stands.
    const auto voice = [](bool odd_ones_stand) {
        std::vector<float> sound = support::noise(2, rate);
        double swinging = 0, standing = 0;
        for (std::size_t i = 0; i < sound.size(); ++i) {
            const double t = static_cast<double>(i) / rate;
            swinging += 220 / rate * std::exp2(12 * std::sin(2 * std::numbers::pi * 5 * t) / 1200);
            standing += 220 / rate;
            double value = 0;
            for (int n = 1; n <= 12; ++n)
                value += (n % 2 == 0 ? 0.2 : 0.015) / n
                         * std::sin(2 * std::numbers::pi * n
                                        * (n % 2 && odd_ones_stand ? standing : swinging)
                                    + n);
            sound[i] = 2e-4F * sound[i] + static_cast<float>(std::min(1.0, t / 0.03) * value);
        }
        return sound;
    };
    const auto heard = [&](bool odd_ones_stand) {
        return listen(voice(odd_ones_stand), static_cast<int>(rate), "sound").notes;
    };
    const auto one = heard(false), two = heard(true);
    REQUIRE(one.size() == 1);
    CHECK(one[0].pitch.hz == Approx(220).margin(0.1));
    REQUIRE(two.size() == 1);
    CHECK(two[0].pitch.hz == Approx(440).margin(0.2));
}
