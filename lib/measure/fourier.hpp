#pragma once
/// @file
/// Private to lib/measure: transforms of real signals, by KissFFT.

#include <complex>
#include <cstddef>
#include <memory>
#include <vector>

namespace sectio::measure {

/// Transforms of `size` real samples, an even number. Not for several threads at once.
class Fourier {
  public:
    explicit Fourier(std::size_t size);
    ~Fourier();
    Fourier(Fourier&&) noexcept;
    Fourier& operator=(Fourier&&) noexcept;

    std::size_t size() const { return size_; }
    /// size()/2 + 1 values.
    void forward(const float* samples, std::complex<float>* spectrum) const;
    /// size() samples; forward and back multiplies by size().
    void back(const std::complex<float>* spectrum, float* samples) const;

  private:
    struct Plans;
    std::size_t size_;
    std::unique_ptr<Plans> plans_;
};

/// |z|²; std::norm goes by way of a square root unless told not to mind infinities.
template <typename T>
T power_of(const std::complex<T>& z) {
    return z.real() * z.real() + z.imag() * z.imag();
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
