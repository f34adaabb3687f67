#pragma once
/// @file
/// Private to lib/measure: what sounds all through a recording, below or within its melody.

#include <sectio/measure/drone_pitch.hpp>
#include <sectio/measure/note_spectra.hpp>
#include <sectio/measure/partials.hpp>

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace sectio::measure {

/// A partial that stands through the recording, and the square of its amplitude where it is soft: a
/// quarter of the time it is softer.
struct DronePartial {
    double hz = 0;
    double power = 0;
    double swing = 1; ///< by which it grows beyond the others at times: two strings beat there
    double most = 0;  ///< what the power is taken to be at the loudest, but for that
};

/// The partials of one or several strings or pipes that sound all the time, and their pitches.
struct Drone {
    std::vector<DronePartial> partials; ///< rising
    std::vector<DronePitch> pitches;    ///< rising

    bool empty() const { return partials.empty(); }
    /// The square of each partial's amplitude at a moment when `measured` are what stands at their
    /// frequencies, melody and all. Neighbouring partials grow and fall together; a note of the
    /// melody lies on some of them only: each is taken to have grown as the least but one of its
    /// neighbours, three to either side, has, and not beyond what is its most.
    std::vector<double> now(const std::vector<double>& measured) const;
    /// Mean square of all of it at its loudest.
    double most() const;
};

/// Looks for a drone in decimated sound that comes in piece by piece; keeps how often each bin of
/// long spectra had which level, and no sound.
class DroneFinder {
  public:
    DroneFinder(double rate, double band_hz);

    void feed(std::span<const float> samples);
    /// The drone: what stands at `asked` and its multiples; or, without these, partials that stand
    /// 12 dB out of the floor three quarters of the time, where other partials come and go over
    /// them.
    Drone found(const std::vector<double>& asked) const;

  private:
    static constexpr std::size_t levels = 128; ///< of a decibel and a half

    void look(const float* samples, std::size_t count);
    NoteSpectra standing(double part) const;
    double sounding(double part) const;
    void keep_standing(std::vector<double>& pitches, const std::vector<Peak>& peaks) const;
    void add_swings(Drone& drone) const;
    NoteSpectra mean() const;
    NoteSpectra blank() const;
    bool moves_over(const Drone& drone) const;

    double rate_, band_hz_;
    Fourier fourier_;
    std::vector<float> window_, waiting_;
    std::vector<Lanes> windowed_;
    std::vector<ComplexLanes> spectrum_;
    std::vector<std::array<std::uint32_t, levels>> counts_;
    std::vector<double> sums_;
    std::array<std::uint32_t, levels> totals_{}; ///< of the whole spectrum
    std::size_t looks_ = 0;
};

} // namespace sectio::measure
