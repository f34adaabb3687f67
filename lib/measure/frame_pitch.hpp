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
    /// `samples` are frame_size() of them.
    Frame analyse(const float* samples);

  private:
    float level_of(const float* samples) const;
    void difference_function(const float* samples);
    float function_over_drone(const float* samples);
    double take_out_drone();
    float longer_lag(float lag) const;

    double rate_;
    Drone drone_;
    std::size_t most_lag_;
    Fourier fourier_;
    std::size_t frame_size_, hop_;
    std::vector<float> padded_, back_, function_;
    std::vector<std::complex<float>> spectrum_;
    std::vector<float> level_window_, window_, window_function_;
};

} // namespace sectio::measure
