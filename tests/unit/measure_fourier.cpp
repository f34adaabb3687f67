// Transforms beside the sums that define them, in double precision; what is heard side by side.

#include "support/tones.hpp"

#include <sectio/measure/drone.hpp>
#include <sectio/measure/fourier.hpp>
#include <sectio/measure/frame_pitch.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <random>

using namespace sectio::measure;

namespace {

std::vector<float> some_samples(std::size_t size, std::size_t seed) {
    std::mt19937 random(static_cast<unsigned>(size + seed));
    std::normal_distribution<float> normal;
    std::vector<float> samples(size);
    for (float& value : samples)
        value = normal(random);
    return samples;
}

/// Σ x(i) e^(-2πi k i / n)
std::complex<double> defined(const std::vector<float>& samples, std::size_t k) {
    std::complex<double> sum = 0;
    const std::size_t n = samples.size();
    for (std::size_t i = 0; i < n; ++i)
        sum += static_cast<double>(samples[i])
               * std::polar(1.0, -2 * std::numbers::pi * static_cast<double>(k * i % n)
                                     / static_cast<double>(n));
    return sum;
}

bool same(const Frame& a, const Frame& b) {
    const auto equal = [](const PitchCandidate& x, const PitchCandidate& y) {
        return x.hz == y.hz && x.clarity == y.clarity;
    };
    return a.level == b.level && a.count == b.count
           && std::equal(a.candidates.begin(), a.candidates.end(), b.candidates.begin(), equal);
}

} // namespace

TEST_CASE("A transform is what its definition says in each lane, and back gives the samples") {
    for (const std::size_t size : {2, 4, 6, 8, 12, 16, 24, 32, 48, 64, 96, 128, 192, 384, 512}) {
        CAPTURE(size);
        const double margin = 1e-6 * std::sqrt(static_cast<double>(size));
        std::array<std::vector<float>, lanes> signals;
        std::vector<Lanes> samples(size), again(size);
        for (std::size_t lane = 0; lane < lanes; ++lane) {
            signals[lane] = some_samples(size, lane);
            for (std::size_t i = 0; i < size; ++i)
                samples[i][lane] = signals[lane][i];
        }
        Fourier fourier(size);
        std::vector<ComplexLanes> spectrum(size / 2 + 1);
        fourier.forward(samples.data(), spectrum.data());
        fourier.back(spectrum.data(), again.data());
        double off = 0, off_again = 0;
        for (std::size_t lane = 0; lane < lanes; ++lane) {
            for (std::size_t k = 0; k < spectrum.size(); ++k)
                off = std::max(
                    off, std::abs(std::complex<double>(spectrum[k].re[lane], spectrum[k].im[lane])
                                  - defined(signals[lane], k)));
            for (std::size_t i = 0; i < size; ++i)
                off_again = std::max(
                    off_again, std::abs(static_cast<double>(
                                   again[i][lane] / static_cast<float>(size) - samples[i][lane])));
        }
        CHECK(off < margin);
        CHECK(off_again < margin);
    }
}

TEST_CASE("Frames that are looked at side by side are heard as each alone, over a drone too") {
    constexpr double rate = 14700;
    std::vector<float> sound = support::tone({.hz = 293.9, .seconds = 1, .rate = rate}, 1);
    for (const Drone& drone : {Drone{}, Drone{{{146.8, 1e-3, 1}, {293.6, 1e-4, 1}}, {}}}) {
        FrameAnalyser analyser(rate, drone);
        std::fill(sound.begin(), sound.begin() + static_cast<std::ptrdiff_t>(analyser.frame_size()),
                  0.0F); // the first is silent
        for (const std::size_t count : {1, 3, 4}) {
            const auto frames = analyser.analyse(sound.data(), count);
            for (std::size_t i = 0; i < count; ++i)
                CHECK(same(frames[i], analyser.analyse(sound.data() + i * analyser.hop(), 1)[0]));
        }
        CHECK(analyser.analyse(sound.data(), 4)[0].count == 0);
        CHECK(analyser.analyse(sound.data(), 4)[3].count > 0);
    }
}

TEST_CASE("A drone is found in whatever pieces its sound comes") {
    constexpr double rate = 14700;
    const auto sound = support::tone({.hz = 146.8, .seconds = 4, .rate = rate}, 1);
    DroneFinder whole(rate, 5880), pieces(rate, 5880);
    whole.feed(sound);
    for (std::size_t at = 0; at < sound.size(); at += 1000)
        pieces.feed(std::span(sound).subspan(at, std::min<std::size_t>(1000, sound.size() - at)));
    const Drone a = whole.found({146.8}), b = pieces.found({146.8});
    REQUIRE(a.partials.size() > 3);
    REQUIRE(a.partials.size() == b.partials.size());
    for (std::size_t i = 0; i < a.partials.size(); ++i) {
        CHECK(a.partials[i].hz == b.partials[i].hz);
        CHECK(a.partials[i].power == b.partials[i].power);
    }
}

TEST_CASE("Quick sizes are powers of two, or three quarters of them") {
    CHECK(quick_size(1) == 6);
    CHECK(quick_size(7) == 8);
    CHECK(quick_size(1500) == 1536);
    CHECK(quick_size(1537) == 2048);
}
