#pragma once
/// @file
/// Private to lib/measure: the periods that a short piece of sound may have: a coarse first look,
/// about 45 times a second.

#include <sectio/measure/drone.hpp>

#include <array>
#include <complex>
#include <cstddef>
#include <span>
#include <vector>

namespace sectio::measure {

/// The lowest and highest pitch that is looked for, in Hz.
inline constexpr double lowest_hz = 26.0;
inline constexpr double highest_hz = 4200.0;

/// One possible pitch of a frame, and how periodic the sound is at it: 1 wholly, 0 not at all.
struct PitchCandidate {
    float hz = 0;
    float clarity = 0;
};

/// A frame of about 95 ms and the pitches it may have, clearest first.
struct Frame {
    static constexpr std::size_t most_candidates = 6;
    std::array<PitchCandidate, most_candidates> candidates;
    std::size_t count = 0;
    /// Mean square about its middle; 1 is full scale. Weighted by Hann's window over half the
    /// frame, so that it hardly depends on how the pulses of a low note lie in it, which come
    /// slower than frames do.
    float level = 0;
};

/// Finds the candidates by the normalised square difference function n(τ) = 2 Σ x(j) x(j+τ) /
/// Σ (x(j)² + x(j+τ)²), whose maxima are as high as the sound is periodic. Source: P. McLeod,
/// G. Wyvill, "A smarter way to find pitch", ICMC 2005.
class FrameAnalyser {
  public:
    /// Over a drone, whose partials are taken out of the spectrum of longer frames (Hann's window,
    /// whose own autocorrelation is divided by: Boersma 1993) before the periods are looked for.
    explicit FrameAnalyser(double rate, const Drone& drone = {});

    std::size_t frame_size() const { return frame_size_; }
    std::size_t hop() const { return hop_; }
    /// The first `count` frames of `samples`, each hop() after the one before: up to `lanes` of
    /// them, side by side.
    std::array<Frame, lanes> analyse(const float* samples, std::size_t count);

  private:
    using Frames = std::array<const float*, lanes>;
    using Sums = std::array<double, lanes>;

    /// Where a partial of the drone lies in the spectrum, and the window's lobe about it.
    struct Skirt {
        std::size_t middle, first;
        std::vector<double> lobe;
    };

    Skirt skirt_of(const DronePartial& partial) const;
    float level_of(const float* samples) const;
    void take_powers();
    void difference_functions(const Frames& frames);
    void functions_over_drone(const Frames& frames);
    Sums take_out_drone();
    void add_candidates(Frame& frame, std::span<const float> function) const;
    float longer_lag(std::span<const float> function, float lag) const;

    double rate_;
    Drone drone_;
    std::size_t most_lag_;
    Fourier fourier_;
    std::size_t frame_size_, hop_;
    std::vector<Lanes> padded_, back_;
    std::vector<ComplexLanes> spectrum_;
    std::array<std::vector<float>, lanes> functions_;
    std::vector<float> level_window_, window_, window_function_;
    std::vector<Skirt> skirts_; ///< of the drone's partials
};

} // namespace sectio::measure
