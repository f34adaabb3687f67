#pragma once
/// @file
/// Tones as samples: a plucked string, and a drone that stays. Both are sums of partials at whole
/// multiples of one frequency, which is therefore exact: a double holds it to 1e-15 of itself, and
/// the phase of each partial, turned on sample by sample, is off by less than 1e-8 of a turn after
/// an hour.

#include <array>
#include <cstdint>
#include <span>
#include <vector>

namespace sectio::sound {

/// Samples a second of everything here.
inline constexpr int sample_rate = 48'000;
/// The lowest and the highest fundamental that is sounded.
inline constexpr double lowest_hz = 16, highest_hz = 12'000;
/// What every partial of a plucked string loses at least, a second, as a natural logarithm: t
/// seconds after it was plucked the string stays within level * exp(-slowest_decay * t).
inline constexpr double slowest_decay = 1.2;

/// @throws Error sound_seconds unless `seconds` is a number from 0 on
void check_seconds(double seconds);

/// A tone from its beginning to its last sample.
struct Tone {
    double hz = 440;    ///< of the fundamental, lowest_hz … highest_hz
    double seconds = 2; ///< until it is silent again, from 0 on
    double level = 1;   ///< its samples stay within this, up and down
};

/// A tone on its way through the samples.
class SoundingTone {
  public:
    /// An ideal string, plucked at a fifth of its length. Partial n begins with the strength that
    /// it has at the bridge, sin(n pi / 5) / n (N. H. Fletcher, T. D. Rossing, "The Physics of
    /// Musical Instruments", 2nd ed. 1998, 2.8), and decays the faster the higher it is, by losses
    /// in the air and within the string (the form of A. Chaigne, A. Askenfelt, JASA 95 (1994) 1112:
    /// b1 + b3 w^2; the constants are our own). A real string's stiffness, which sharpens its
    /// partials, is left out. The end is damped within a twentieth of a second.
    static SoundingTone plucked(const Tone& tone);
    /// 12 partials falling off as 1/n that swell within the first two seconds (or half of them),
    /// stay, and fade within the last two.
    static SoundingTone drone(const Tone& tone);

    /// Adds the next samples of the tone, as many as there are up to its end.
    void add_to(std::span<float> samples);
    /// Goes on at another frequency, without a step in the wave. Partials that come above what can
    /// be sounded are silent there.
    void set_hz(double hz);
    bool ended() const { return at_ == frames_; }

  private:
    struct Partial {
        double number;   ///< of its frequency, in those of the fundamental
        double strength; ///< at the beginning
        double decay;    ///< a second, natural logarithm
    };
    /// Four partials, turned together.
    struct Four {
        std::array<double, 4> across{}, up{}; ///< pointers; the partials are their heights
        std::array<double, 4> step_across{}, step_up{}; ///< what multiplies them each sample
        std::array<double, 4> number{}, decay{};
    };

    SoundingTone(const Tone& tone, std::vector<Partial> partials, double swell, double fade);
    static std::vector<Partial> string_partials(double hz);
    static std::vector<Partial> drone_partials(double hz);
    double shape(double time) const;

    std::vector<Four> partials_;
    double level_, seconds_, swell_, fade_;
    std::int64_t at_ = 0, frames_;
};

/// Adds a plucked string from its beginning on.
void add_plucked(std::span<float> samples, const Tone& tone);
/// Adds a drone from its beginning on.
void add_drone(std::span<float> samples, const Tone& tone);

} // namespace sectio::sound
