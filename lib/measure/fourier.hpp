#pragma once
/// @file
/// Private to lib/measure: transforms of real signals, four side by side.

#include <complex>
#include <cstddef>
#include <memory>
#include <vector>

namespace sectio::measure {

/// Signals that one transform takes: as many as the plainest processors compute with at once.
inline constexpr std::size_t lanes = 4;
/// A sample of each of them.
using Lanes [[gnu::vector_size(lanes * sizeof(float))]] = float;

/// A complex value of each of them.
struct ComplexLanes {
    Lanes re, im;
};

/// Transforms of `size` real samples: 2^k or 3·2^k, an even number. No lane's answer depends on the
/// others. Not for several threads at once.
class Fourier {
  public:
    explicit Fourier(std::size_t size);
    ~Fourier();
    Fourier(Fourier&&) noexcept;
    Fourier& operator=(Fourier&&) noexcept;

    std::size_t size() const;
    /// size()/2 + 1 values.
    void forward(const Lanes* samples, ComplexLanes* spectrum);
    /// size() samples; forward and back multiplies by size().
    void back(const ComplexLanes* spectrum, Lanes* samples);

  private:
    struct Plans; ///< KissFFT's
    std::unique_ptr<Plans> plans_;
};

/// |z|²; std::norm goes by way of a square root unless told not to mind infinities.
template <typename T>
T power_of(const std::complex<T>& z) {
    return z.real() * z.real() + z.imag() * z.imag();
}
inline Lanes power_of(const ComplexLanes& z) {
    return z.re * z.re + z.im * z.im;
}

/// The least of 2^k and 3·2^k that is not below `size`: quick to transform, and few enough to keep.
std::size_t quick_size(std::size_t size);

/// Hann's window of `size`, periodic: 0 at its first sample.
std::vector<float> hann_window(std::size_t size);

/// Hann's window at `bins` of its own from its middle, as a part of the amplitude there.
double hann_lobe(double bins);

/// How far, in bins, a maximum of powers lies from the highest of three neighbours: Hann's main
/// lobe is nearly a parabola in decibels. Within half a bin.
double top_offset(double before, double highest, double after);

} // namespace sectio::measure
