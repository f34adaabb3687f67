#include "scene_voices.hpp"

#include <cmath>

namespace pitch_study {

namespace {

double fade(double t, double seconds) {
    constexpr double end_s = 0.02;
    return std::clamp((seconds - t) / end_s, 0.0, 1.0);
}

double partial_hz(const Voice& v, std::size_t n) {
    if (!v.ratios.empty())
        return v.hz * v.ratios[n - 1];
    const double number = static_cast<double>(n);
    return v.hz * number
           * std::sqrt((1 + v.inharmonicity * number * number) / (1 + v.inharmonicity));
}

void add_partial(Maker& m, const Voice& v, std::size_t n, double amplitude) {
    const double decay = v.decay_s / (1 + 0.15 * (static_cast<double>(n) - 1));
    const auto first = static_cast<std::size_t>(v.start_s * scene_rate);
    const auto count = static_cast<std::size_t>(v.seconds * scene_rate);
    double phase = m.any(0, 1);
    const double step = partial_hz(v, n) / scene_rate;
    for (std::size_t i = 0; i < count && first + i < m.sound.size(); ++i) {
        const double t = static_cast<double>(i) / scene_rate;
        phase += v.cents ? step * std::exp2(v.cents(t) / 1200) : step;
        m.sound[first + i] += amplitude * v.attack(t) * std::exp(-t / decay) * fade(t, v.seconds)
                              * std::sin(turn * phase);
    }
}

} // namespace

void add(Maker& m, const Voice& v) {
    m.lengthen(v.start_s + v.seconds);
    const std::size_t most = v.ratios.empty() ? 20 : v.ratios.size();
    std::vector<double> amplitudes;
    double power = 0;
    for (std::size_t n = 1; n <= most && partial_hz(v, n) < 0.4 * scene_rate; ++n) {
        amplitudes.push_back(std::pow(static_cast<double>(n), -v.brightness) * m.any(0.6, 1));
        power += std::pow(amplitudes.back(), 2) / 2;
    }
    for (std::size_t n = 1; n <= amplitudes.size(); ++n)
        add_partial(m, v, n, v.level * amplitudes[n - 1] / std::sqrt(power));
}

void play(Maker& m, const Voice& v) {
    m.scene.played.push_back({v.start_s, v.start_s + v.seconds, v.hz});
    add(m, v);
}

void add_noise(Maker& m, double db, double from_s, double to_s) {
    std::normal_distribution<double> normal;
    for (std::size_t i = 0; i < m.sound.size(); ++i) {
        const double t = static_cast<double>(i) / scene_rate;
        if (t >= from_s && t < to_s)
            m.sound[i] += std::pow(10, db / 20) * normal(m.random);
    }
}

double gain(double db) {
    return std::pow(10, db / 20);
}

} // namespace pitch_study
