#include <catch2/catch.hpp>
#include <sndfile.h>
#include <support/sound.hpp>

#include <algorithm>
#include <cmath>
#include <complex>
#include <memory>
#include <numbers>

namespace support {

namespace {

/// Strength and phase at `hz` of `count` samples from `begin` on, the phase counted from sample 0.
std::complex<double> look(const Sound& sound, std::size_t begin, std::size_t count, double hz) {
    std::complex<double> sum;
    for (std::size_t i = 0; i < count; ++i) {
        const double part = static_cast<double>(i) / static_cast<double>(count);
        const double time = static_cast<double>(begin + i) / sound.rate;
        sum += sound.samples.at(begin + i) * (1 - std::cos(2 * std::numbers::pi * part))
               * std::polar(1.0, -2 * std::numbers::pi * std::fmod(hz * time, 1));
    }
    return sum;
}

} // namespace

double Sound::peak(double from_s, double to_s) const {
    double most = 0;
    for (auto i = static_cast<std::size_t>(from_s * rate);
         i < std::min(samples.size(), static_cast<std::size_t>(to_s * rate)); ++i)
        most = std::max(most, std::abs(samples[i]));
    return most;
}

double Sound::onset(double level) const {
    const auto first = std::find_if(samples.begin(), samples.end(),
                                    [&](double sample) { return std::abs(sample) > level; });
    return static_cast<double>(first - samples.begin()) / rate;
}

Sound read_sound(const std::filesystem::path& file) {
    SF_INFO info{};
    const std::unique_ptr<SNDFILE, int (*)(SNDFILE*)> in(sf_open(file.c_str(), SFM_READ, &info),
                                                         sf_close);
    REQUIRE(in);
    std::vector<double> all(static_cast<std::size_t>(info.frames * info.channels));
    REQUIRE(sf_readf_double(in.get(), all.data(), info.frames) == info.frames);
    Sound sound{info.samplerate, {}};
    for (std::size_t i = 0; i < all.size(); i += static_cast<std::size_t>(info.channels))
        sound.samples.push_back(all[i]);
    return sound;
}

double measured_hz(const Sound& sound, double start_s, double seconds, double guess) {
    const auto begin = static_cast<std::size_t>(start_s * sound.rate);
    const auto half = static_cast<std::size_t>(seconds / 2 * sound.rate);
    double hz = guess;
    for (const double apart_s : {0.02, 0.08, seconds / 2}) {
        const auto apart = static_cast<std::size_t>(apart_s * sound.rate);
        const auto turn = std::arg(look(sound, begin + apart, half, hz)
                                   * std::conj(look(sound, begin, half, hz)));
        hz += turn / (2 * std::numbers::pi) * sound.rate / static_cast<double>(apart);
    }
    return hz;
}

double cents_between(double a, double b) {
    return 1200 * std::log2(a / b);
}

} // namespace support
