#pragma once
/// @file
/// Voices of which scenes are made up.

#include "scenes.hpp"

#include <algorithm>
#include <functional>
#include <numbers>
#include <random>

namespace pitch_study {

constexpr double turn = 2 * std::numbers::pi;

struct Maker {
    std::mt19937 random;
    std::vector<double> sound{};
    Scene scene{};

    double any(double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    }
    int one_of(int count) { return static_cast<int>(random() % static_cast<unsigned>(count)); }
    void lengthen(double s) {
        sound.resize(std::max(sound.size(), static_cast<std::size_t>(s * scene_rate)));
    }
};

/// Amplitude and pitch as they go on from the start of a note, in seconds.
using Course = std::function<double(double)>;

struct Voice {
    double hz = 220, start_s = 0, seconds = 1, level = 1;
    std::vector<double> ratios{}; ///< of partials; harmonic ones where empty
    double brightness = 1;        ///< partials fall by n to the power of this
    double decay_s = 1e9;         ///< of the first partial; the n-th has decay / (1 + 0.15 n)
    double inharmonicity = 0;
    Course attack = [](double t) { return std::min(1.0, t / 0.003); };
    Course cents = {}; ///< by which the pitch lies off
};

/// Amplitudes are scaled so that the note's power at its full strength is level².
void add(Maker& m, const Voice& v);
/// The same, and it is to be heard.
void play(Maker& m, const Voice& v);
/// White noise of so much power, between these times.
void add_noise(Maker& m, double db, double from_s = 0, double to_s = 1e9);
double gain(double db);

} // namespace pitch_study
