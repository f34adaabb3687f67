#pragma once
/// @file
/// Tones as samples: a plucked string, and a drone that stays. Both are sums of partials at whole
/// multiples of one frequency, which is therefore exact: a double holds it to 1e-15 of itself, and
/// the phase of each partial, turned on sample by sample, is off by less than 1e-8 of a turn after
/// an hour.

#include <span>

namespace sectio::sound {

/// Samples a second of everything here.
inline constexpr int sample_rate = 48'000;
/// The lowest and the highest fundamental that is sounded.
inline constexpr double lowest_hz = 16, highest_hz = 12'000;

/// A tone from its beginning to its last sample, at the start of the samples it is added to.
struct Tone {
    double hz = 440;    ///< of the fundamental, lowest_hz … highest_hz
    double seconds = 2; ///< until it is silent again
    double level = 1;   ///< its samples stay within this, up and down
};

/// Adds an ideal string, plucked at a fifth of its length. Partial n begins with the strength that
/// it has at the bridge, sin(n pi / 5) / n (N. H. Fletcher, T. D. Rossing, "The Physics of Musical
/// Instruments", 2nd ed. 1998, 2.8), and decays the faster the higher it is, by losses in the air
/// and within the string (the form of A. Chaigne, A. Askenfelt, JASA 95 (1994) 1112: b1 + b3 w^2;
/// the constants are our own). A real string's stiffness, which sharpens its partials, is left out.
/// The end is damped within a twentieth of a second.
void add_plucked(std::span<float> samples, const Tone& tone);

/// Adds a tone of 12 partials falling off as 1/n that swells within its first two seconds (or
/// half), stays, and fades within its last two.
void add_drone(std::span<float> samples, const Tone& tone);

} // namespace sectio::sound
