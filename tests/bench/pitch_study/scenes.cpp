#include "scene_voices.hpp"

#include <algorithm>
#include <cmath>

namespace pitch_study {

namespace {

void soft_attack(Maker& m) {
    const double rise = m.any(0.08, 0.8);
    const int shape = m.one_of(3);
    Voice v{.hz = 110 * std::exp2(m.any(0, 2)), .start_s = 0.3, .seconds = 2 + rise};
    v.attack = [=](double t) {
        const double x = std::min(1.0, t / rise);
        return shape == 0   ? x
               : shape == 1 ? 0.5 - 0.5 * std::cos(std::numbers::pi * x)
                            : 1 - std::exp(-3 * t / rise);
    };
    play(m, v);
    add_noise(m, -60);
}

void over_ringing(Maker& m, double ratio, double db) {
    const double hz = 150 * std::exp2(m.any(0, 2.5)), off = std::exp2(m.any(-6, 6) / 1200);
    add(m, {.hz = hz / ratio * off, .seconds = 2.2, .level = gain(db), .decay_s = 2});
    play(m, {.hz = hz, .start_s = 0.2, .seconds = 1.5, .decay_s = 0.8, .inharmonicity = 5e-5});
    add_noise(m, -70);
}

/// Degrees of a scale in one octave above the tonic, tempered by the seed.
double degree_hz(Maker& m, double tonic) {
    constexpr double cents[] = {0,   182, 204, 294, 316, 386,  498,
                                590, 702, 814, 884, 996, 1088, 1200};
    return tonic * std::exp2((cents[m.one_of(14)] + m.any(-8, 8)) / 1200);
}

void melody(Maker& m, double tonic, int notes, double seconds, double start_s = 0.5) {
    double last = 0;
    for (int i = 0; i < notes; ++i) {
        double hz = degree_hz(m, tonic);
        while (std::abs(std::log2(hz / last)) < 0.06)
            hz = degree_hz(m, tonic);
        play(m, {.hz = hz,
                 .start_s = start_s + i * seconds,
                 .seconds = seconds,
                 .decay_s = 0.9,
                 .inharmonicity = 3e-5});
        last = hz;
    }
}

void over_drone(Maker& m, double db, bool plucked, bool fifth) {
    constexpr double d3 = 146.832, a3 = 220;
    const double melody_s = 8 * 0.7, all_s = melody_s + 1.2;
    melody(m, 2 * d3, 8, 0.7);
    const double level = gain(db) * (fifth ? std::sqrt(0.5) : 1);
    for (const double hz : fifth ? std::vector{d3, a3} : std::vector{d3})
        for (double at = 0; at < all_s; at += plucked ? 3.0 : all_s)
            add(m, {.hz = hz,
                    .start_s = at,
                    .seconds = plucked ? std::min(3.0, all_s - at) : all_s,
                    .level = level,
                    .decay_s = plucked ? 2.5 : 1e9});
    add_noise(m, -60);
    m.scene.drone = fifth ? "D3,A3" : "D3";
}

void close_degrees(Maker& m) {
    const double hz = 200 * std::exp2(m.any(0, 1)), apart = m.any(5, 30);
    for (int i = 0; i < 2; ++i)
        play(m, {.hz = hz * std::exp2(i * apart / 1200),
                 .start_s = 0.2 + i,
                 .seconds = 1,
                 .decay_s = 0.8});
    add_noise(m, -60);
}

void vibrato(Maker& m) {
    const double depth = m.any(5, 40), rate = m.any(4.5, 6), phase = m.any(0, 1);
    Voice v{.hz = 150 * std::exp2(m.any(0, 2.5)), .start_s = 0.2, .seconds = m.any(1, 3)};
    v.attack = [](double t) { return std::min(1.0, t / 0.06); };
    v.cents = [=](double t) { return depth * std::sin(turn * (rate * t + phase)); };
    play(m, v);
    add_noise(m, -50);
}

void bar(Maker& m) {
    play(m, {.hz = 200 * std::exp2(m.any(0, 2)),
             .start_s = 0.2,
             .seconds = m.any(0.8, 2),
             .ratios = {1, 2.756, 5.404},
             .brightness = m.any(0.3, 1.5),
             .decay_s = m.any(0.4, 1.2)});
    add_noise(m, -60);
}

void course(Maker& m) {
    const double hz = 150 * std::exp2(m.any(0, 1.5));
    play(m, {.hz = hz, .start_s = 0.2, .seconds = 1.5, .decay_s = 0.9});
    for (const double cents : {-1.5, 1.5})
        add(m, {.hz = hz * std::exp2(cents / 1200),
                .start_s = 0.2,
                .seconds = 1.5,
                .level = m.any(0.5, 1),
                .decay_s = 0.9});
    add_noise(m, -60);
}

/// Echoes at random, falling by 60 dB in 1.2 seconds.
void reverberate(Maker& m) {
    const std::vector<double> dry = m.sound;
    m.lengthen(static_cast<double>(dry.size()) / scene_rate + 0.5);
    for (int echo = 0; echo < 150; ++echo) {
        const double late = m.any(0.01, 0.9);
        const double strength = m.any(-1, 1) * 0.25 * gain(-60 * late / 1.2);
        const auto shift = static_cast<std::size_t>(late * scene_rate);
        for (std::size_t i = 0; i < dry.size() && i + shift < m.sound.size(); ++i)
            m.sound[i + shift] += strength * dry[i];
    }
}

void reverberant(Maker& m) {
    melody(m, 220, 6, 0.8);
    reverberate(m);
    add_noise(m, -60);
}

/// Sustained notes that pass into one another within 200 ms.
void legato(Maker& m) {
    const double base = 220;
    std::vector<double> cents;
    for (int i = 0; i < 6; ++i)
        do
            cents.resize(static_cast<std::size_t>(i)),
                cents.push_back(1200 * std::log2(degree_hz(m, base) / base));
        while (i > 0 && std::abs(cents.back() - cents[static_cast<std::size_t>(i) - 1]) < 90);
    Voice v{.hz = base, .start_s = 0.2, .seconds = 6};
    v.cents = [=](double t) {
        const auto at = std::min<std::size_t>(static_cast<std::size_t>(t), 5);
        const double into = (t - static_cast<double>(at) - 0.8) / 0.2;
        return at < 5 && into > 0 ? cents[at] + into * (cents[at + 1] - cents[at]) : cents[at];
    };
    add(m, v);
    for (std::size_t i = 0; i < 6; ++i)
        m.scene.played.push_back({0.2 + static_cast<double>(i), 1.0 + static_cast<double>(i),
                                  base * std::exp2(cents[i] / 1200)});
    add_noise(m, -60);
}

/// Between the notes a finger slides over wound strings, and knocks.
void finger_noise(Maker& m) {
    melody(m, 216, 8, 0.6);
    for (int i = 0; i < 8; ++i) {
        const double at = 0.5 + 0.6 * i + 0.53;
        add_noise(m, -22, at, at + 0.06);
        add(m, {.hz = m.any(45, 90),
                .start_s = at,
                .seconds = 0.12,
                .level = gain(-15),
                .ratios = {1, 1.7, 2.9},
                .decay_s = 0.03});
    }
    add_noise(m, -60);
}

/// A voice that speaks: syllables whose pitch falls and rises all the time.
void speech(Maker& m) {
    for (double at = 0.2; at < 5; at += m.any(0.2, 0.4)) {
        const double from = m.any(-500, 300), to = from + m.any(-400, 200),
                     long_s = m.any(0.1, 0.25);
        Voice v{.hz = 130, .start_s = at, .seconds = long_s};
        v.attack = [](double t) { return std::min(1.0, t / 0.03); };
        v.cents = [=](double t) { return from + (to - from) * t / long_s; };
        add(m, v);
        add_noise(m, -25, at - 0.06, at);
    }
    add_noise(m, -55);
}

using Kind = std::pair<std::string, std::function<void(Maker&)>>;

std::vector<Kind> drone_kinds() {
    std::vector<Kind> kinds;
    for (const int db : {-6, -12, -20, -40})
        kinds.emplace_back("drone " + std::to_string(db) + " dB",
                           [db](Maker& m) { over_drone(m, db, false, false); });
    for (const int db : {-6, -12, -20})
        kinds.emplace_back("plucked drone " + std::to_string(db) + " dB",
                           [db](Maker& m) { over_drone(m, db, true, false); });
    for (const int db : {-6, -12, -20})
        kinds.emplace_back("drone of two " + std::to_string(db) + " dB",
                           [db](Maker& m) { over_drone(m, db, false, true); });
    return kinds;
}

const std::vector<Kind>& kinds() {
    static const std::vector<Kind> all = [] {
        std::vector<Kind> list{{"soft attack", soft_attack}};
        for (const int db : {-20, -30})
            for (const auto& [name, ratio] :
                 {std::pair{"octave", 2.0}, {"fifth", 1.5}, {"twelfth", 3.0}})
                list.emplace_back(std::string(name) + " below rings, " + std::to_string(db) + " dB",
                                  [db, ratio = ratio](Maker& m) { over_ringing(m, ratio, db); });
        for (Kind& kind : drone_kinds())
            list.push_back(std::move(kind));
        for (const Kind& kind : std::initializer_list<Kind>{{"close degrees", close_degrees},
                                                            {"vibrato", vibrato},
                                                            {"bar", bar},
                                                            {"course 3 c apart", course},
                                                            {"reverberation", reverberant},
                                                            {"legato", legato},
                                                            {"finger noise", finger_noise},
                                                            {"speech", speech}})
            list.push_back(kind);
        return list;
    }();
    return all;
}

} // namespace

const std::vector<std::string>& scene_kinds() {
    static const std::vector<std::string> names = [] {
        std::vector<std::string> list;
        for (const Kind& kind : kinds())
            list.push_back(kind.first);
        return list;
    }();
    return names;
}

Scene scene(const std::string& name, std::uint32_t seed) {
    const auto kind = std::find_if(kinds().begin(), kinds().end(),
                                   [&](const Kind& k) { return k.first == name; });
    Maker maker{std::mt19937(seed * 7919 + static_cast<std::uint32_t>(kind - kinds().begin()))};
    kind->second(maker);
    double most = 0;
    for (const double value : maker.sound)
        most = std::max(most, std::abs(value));
    for (const double value : maker.sound)
        maker.scene.sound.push_back(static_cast<float>(0.5 * value / most));
    return std::move(maker.scene);
}

} // namespace pitch_study
