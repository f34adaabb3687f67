#include <sectio/measure/fourier.hpp>

#include <kiss_fftr.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sectio::measure {

struct Fourier::Plans {
    kiss_fftr_cfg forward;
    kiss_fftr_cfg back;

    explicit Plans(std::size_t size)
        : forward(kiss_fftr_alloc(static_cast<int>(size), 0, nullptr, nullptr)),
          back(kiss_fftr_alloc(static_cast<int>(size), 1, nullptr, nullptr)) {
        if (!forward || !back)
            throw std::bad_alloc();
    }
    Plans(const Plans&) = delete;
    Plans& operator=(const Plans&) = delete;
    ~Plans() {
        kiss_fftr_free(forward);
        kiss_fftr_free(back);
    }
};

// KissFFT's complex number is two floats, as std::complex<float> is by [complex.numbers]/4.
static_assert(sizeof(kiss_fft_cpx) == sizeof(std::complex<float>));

Fourier::Fourier(std::size_t size) : size_(size), plans_(std::make_unique<Plans>(size)) {}
Fourier::~Fourier() = default;
Fourier::Fourier(Fourier&&) noexcept = default;
Fourier& Fourier::operator=(Fourier&&) noexcept = default;

void Fourier::forward(const float* samples, std::complex<float>* spectrum) const {
    kiss_fftr(plans_->forward, samples, reinterpret_cast<kiss_fft_cpx*>(spectrum));
}

void Fourier::back(const std::complex<float>* spectrum, float* samples) const {
    kiss_fftri(plans_->back, reinterpret_cast<const kiss_fft_cpx*>(spectrum), samples);
}

std::size_t quick_size(std::size_t size) {
    std::size_t power = 8;
    while (power < size)
        power *= 2;
    return power / 4 * 3 >= size ? power / 4 * 3 : power;
}

std::vector<float> hann_window(std::size_t size) {
    std::vector<float> window(size);
    for (std::size_t i = 0; i < size; ++i)
        window[i] =
            static_cast<float>(0.5
                               - 0.5
                                     * std::cos(2 * std::numbers::pi * static_cast<double>(i)
                                                / static_cast<double>(size)));
    return window;
}

double hann_lobe(double bins) {
    const double x = std::abs(bins);
    if (x < 1e-6)
        return 1;
    if (std::abs(x - 1) < 1e-6)
        return 0.5;
    return std::sin(std::numbers::pi * x) / (std::numbers::pi * x) / (1 - x * x);
}

double top_offset(double before, double highest, double after) {
    const double a = std::log(before + 1e-30), b = std::log(highest + 1e-30),
                 c = std::log(after + 1e-30);
    const double curve = a - 2 * b + c;
    return curve < 0 ? std::clamp(0.5 * (a - c) / curve, -0.5, 0.5) : 0.0;
}

} // namespace sectio::measure
