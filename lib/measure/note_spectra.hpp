#pragma once
/// @file
/// Private to lib/measure: the spectra of one note, long enough to tell its partials apart.

#include <sectio/measure/fourier.hpp>

#include <complex>
#include <map>
#include <span>
#include <vector>

namespace sectio::measure {

/// Short-time spectra with Hann's window, three quarters overlapping. In each a steady partial has
/// a phase that grows by its frequency times the hop, whatever the bin that it is read in.
struct NoteSpectra {
    double rate = 0;
    double band_hz = 0;     ///< partials above it are not looked at
    std::size_t window = 0; ///< samples
    std::size_t hop = 0;    ///< a quarter of it
    std::size_t bins = 0;
    std::vector<std::vector<std::complex<float>>> frames;
    std::vector<float> power; ///< mean over the frames, a bin each
    std::vector<float> noise; ///< what is left of it between the partials

    double hertz(double bin) const { return bin * rate / static_cast<double>(window); }
    double bin(double hertz) const { return hertz * static_cast<double>(window) / rate; }
};

/// Fills in the noise, from the power.
void add_noise(NoteSpectra& spectra);

/// Keeps the plans of the transforms, since notes differ in few sizes.
class SpectrumMaker {
  public:
    /// Windows of about 16 periods of `about_hz`, `least_s` at least, fewer where `samples` is
    /// short; no frames at all where not even 4 periods fit in.
    NoteSpectra spectra(std::span<const float> samples, double rate, double band_hz,
                        double about_hz, double least_s = 0.06);

    /// The power of each bin in the last `window` samples; of fewer, a quarter at least, what
    /// sinusoids of the same amplitudes would have in so many. Nothing of fewer still.
    std::vector<float> last_power(std::span<const float> samples, std::size_t window);

  private:
    struct Plan {
        Fourier fourier;
        std::vector<float> window;
    };
    Plan& plan(std::size_t size);
    std::map<std::size_t, Plan> plans_;
};

} // namespace sectio::measure
