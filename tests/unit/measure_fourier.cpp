// Transforms beside the sums that define them, in double precision.

#include <sectio/measure/fourier.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <random>

using namespace sectio::measure;

namespace {

std::vector<float> some_samples(std::size_t size) {
    std::mt19937 random(static_cast<unsigned>(size));
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

} // namespace

TEST_CASE("A transform is what its definition says, and back gives the samples") {
    for (const std::size_t size : {2, 4, 6, 8, 12, 16, 24, 32, 48, 64, 96, 128, 192, 384, 512}) {
        CAPTURE(size);
        const std::vector<float> samples = some_samples(size);
        const double margin = 1e-6 * std::sqrt(static_cast<double>(size));
        const Fourier fourier(size);
        std::vector<std::complex<float>> spectrum(size / 2 + 1);
        fourier.forward(samples.data(), spectrum.data());
        double off = 0;
        for (std::size_t k = 0; k < spectrum.size(); ++k)
            off = std::max(off, std::abs(std::complex<double>(spectrum[k]) - defined(samples, k)));
        CHECK(off < margin);
        std::vector<float> again(size);
        fourier.back(spectrum.data(), again.data());
        for (std::size_t i = 0; i < size; ++i)
            CHECK(again[i] / static_cast<float>(size) == Approx(samples[i]).margin(margin));
    }
}

TEST_CASE("Quick sizes are powers of two, or three quarters of them") {
    CHECK(quick_size(1) == 6);
    CHECK(quick_size(7) == 8);
    CHECK(quick_size(1500) == 1536);
    CHECK(quick_size(1537) == 2048);
}
