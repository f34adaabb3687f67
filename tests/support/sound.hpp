#pragma once
/// @file
/// Sound files read, and frequencies measured, by means of their own.

#include <filesystem>
#include <vector>

namespace support {

/// The first channel of a sound file.
struct Sound {
    int rate = 48'000;
    std::vector<double> samples;

    double peak(double from_s, double to_s) const;
    /// The first moment at which the sound is louder than `level`.
    double onset(double level) const;
};

/// Reads WAV by libsndfile; the test fails where it cannot.
Sound read_sound(const std::filesystem::path& file);

/// The frequency of the tone near `guess` from `start_s` on, in Hz: how far its phase under a Hann
/// window turns between two looks, first close together, then half of `seconds` apart. It is right
/// where no other partial lies within 4 / (seconds / 2) Hz, and where the guess is within 20 Hz.
double measured_hz(const Sound& sound, double start_s, double seconds, double guess);

/// Cents from `b` up to `a`.
double cents_between(double a, double b);

} // namespace support
