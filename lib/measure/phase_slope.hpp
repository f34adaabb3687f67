#pragma once
/// @file
/// Private to lib/measure: the frequency of one partial from the course of its phase.

#include <sectio/measure/note_spectra.hpp>

#include <vector>

namespace sectio::measure {

/// What the arithmetic itself may be off: single precision, and leakage between partials.
constexpr double method_cents = 5e-4;

/// A frequency and the variance of its error, in Hz and Hz².
struct Frequency {
    double hz = 0;
    double variance = 0;
    double coherence = 0; ///< 1 where the phase keeps to its slope, towards 0 where it wanders
    double swing2 = 0;    ///< mean square of what is left of the phase, beyond the noise
    double wander2 = 0;   ///< part of the variance that is not by noise
    double spread_hz = 0; ///< standard deviation of all that sounds at the partial's place
};

/// One partial, followed through the frames of a note.
class PartialPhase {
  public:
    PartialPhase(const NoteSpectra& spectra, double about_hz);
    /// What is left of `times` a lower partial's phase without that of a higher one: it keeps to
    /// one slope where both swing alike, as the partials of one note do.
    PartialPhase(const PartialPhase& lower, int times, const PartialPhase& higher);

    /// The frequency over the frames [first, last): the slope of the phase by least squares, each
    /// frame weighted by its power over the noise, which for a steady partial in white noise comes
    /// near the least variance possible. Source: S. A. Tretter, "Estimating the frequency of a
    /// noisy sinusoid by linear regression", IEEE Transactions on Information Theory 31, 1985. The
    /// variance counts that frames three quarters of which are common have common noise. None (a
    /// variance of 0) where fewer than 3 frames stand out of the noise.
    Frequency slope(std::size_t first, std::size_t last) const;
    /// The frequency from the frame `m` to the next, that of several possible which lies nearest,
    /// and its variance by noise; no variance where one of the two drowns in it.
    Frequency step(std::size_t m, double nearest_hz) const;
    /// Turned back by a pitch that wanders by these cents about `hz` from each frame to the next, 0
    /// where they end, so that it keeps to its mean.
    void turn_back(const std::vector<double>& cents, double hz);
    /// Its mean power there.
    double power(std::size_t first, std::size_t last) const;

  private:
    /// Some frames, turned back by a slope of the phase.
    struct Course {
        std::vector<std::complex<double>> turned;
        // Of those that stand out of the noise:
        std::complex<double> mean = 0;
        double amplitudes = 0, weight = 0;
        double middle = 0; ///< weighted, in frames
        std::size_t used = 0;
    };

    double coarse_slope(std::size_t first, std::size_t last) const;
    Course course(std::size_t first, std::size_t last, double slope) const;
    double spread(std::size_t first, std::size_t last) const;
    double scaled_variance(std::size_t first, std::size_t last, double middle) const;

    double reference_hz_, frame_seconds_;
    std::vector<std::complex<double>> values_; ///< turned back by the phase of reference_hz_
    std::vector<double> weight_;               ///< power over noise; 0 where below the noise
};

} // namespace sectio::measure
