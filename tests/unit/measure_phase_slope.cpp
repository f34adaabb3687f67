// A partial's frequency from the course of its phase, and the error that is stated of it.

#include <sectio/measure/phase_slope.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <random>

using namespace sectio::measure;

namespace {

constexpr double rate = 16000;

std::vector<float> sine(double hz, double noise, std::uint64_t seed = 1) {
    std::mt19937_64 random(seed);
    std::normal_distribution<double> normal;
    const double phase = 2 * std::numbers::pi * static_cast<double>(random() % 1000) / 1000;
    std::vector<float> sound(16000);
    for (std::size_t i = 0; i < sound.size(); ++i)
        sound[i] = static_cast<float>(
            std::sin(phase + 2 * std::numbers::pi * hz * static_cast<double>(i) / rate)
            + noise * normal(random));
    return sound;
}

NoteSpectra spectra_of(const std::vector<float>& sound, double about_hz) {
    SpectrumMaker maker;
    return maker.spectra(sound, rate, 7000, about_hz);
}

} // namespace

TEST_CASE("A phase that turns many times through a note still gives its frequency") {
    const NoteSpectra spectra = spectra_of(sine(400, 1e-4), 400);
    const std::size_t frames = spectra.frames.size();
    REQUIRE(frames > 30);
    // A bin is 25 Hz: half of it off the reference the phase turns by an eighth a frame.
    for (const double reference : {388.0, 396.0, 400.0, 409.0, 412.0}) {
        CAPTURE(reference);
        const PartialPhase phase(spectra, reference);
        const Frequency whole = phase.slope(0, frames);
        CHECK(whole.hz == Approx(400).margin(1e-4));
        CHECK(whole.coherence > 0.999);
        CHECK(phase.slope(frames / 2, frames).hz == Approx(400).margin(1e-3));
    }
}

TEST_CASE("A frequency is as far off as its variance says") {
    constexpr int sounds = 200;
    double squares = 0;
    for (std::uint64_t seed = 1; seed <= sounds; ++seed) {
        const NoteSpectra spectra = spectra_of(sine(403, 0.3, seed), 400);
        const Frequency found = PartialPhase(spectra, 401).slope(0, spectra.frames.size());
        REQUIRE(found.variance > 0);
        squares += std::pow(found.hz - 403, 2) / found.variance;
    }
    // χ² of 200 degrees of freedom over 200: 0.71 and 1.34 have odds of 1 in 1000 each.
    CHECK(squares / sounds > 0.71);
    CHECK(squares / sounds < 1.34);
}

TEST_CASE("What sounds at a partial's place is told by its spread") {
    std::vector<float> two = sine(400, 1e-4);
    const std::vector<float> other = sine(404, 1e-4, 2);
    for (std::size_t i = 0; i < two.size(); ++i)
        two[i] = (two[i] + other[i]) * std::exp(-2.0F * static_cast<float>(i) / 16000);
    const auto spread_of = [](const std::vector<float>& sound) {
        const NoteSpectra spectra = spectra_of(sound, 400);
        return PartialPhase(spectra, 400).slope(0, spectra.frames.size());
    };
    CHECK(spread_of(two).spread_hz == Approx(2).epsilon(0.1)); // two equal ones 4 Hz apart
    CHECK(spread_of(two).swing2 > 0.1);
    CHECK(spread_of(sine(400, 1e-4)).spread_hz < 0.01);
    CHECK(spread_of(sine(400, 0.3)).swing2 < 1e-3);
}

TEST_CASE("Fewer than three frames out of the noise give no frequency") {
    const NoteSpectra spectra = spectra_of(sine(400, 1e-4), 400);
    CHECK(PartialPhase(spectra, 400).slope(0, 2).variance == 0);
    CHECK(PartialPhase(spectra, 400).slope(0, 3).variance > 0);
}
