#include <sectio/measure/fourier.hpp>

#include <algorithm>
#include <cmath>
#include <kissfft/kissfft.hh>
#include <numbers>
#include <type_traits>

namespace sectio::measure {

namespace {

/// A number of each lane, as KissFFT takes its numbers. What it computes beforehand is the same in
/// all lanes.
class Scalar {
  public:
    Scalar() = default;
    Scalar(Lanes lanes) : lanes_(lanes) {}
    template <typename Number>
    requires std::is_arithmetic_v<Number> Scalar(Number number)
        : lanes_(Lanes{} + static_cast<float>(number)) {}

    operator float() const { return lanes_[0]; }
    Lanes lanes() const { return lanes_; }

    Scalar& operator+=(Scalar b) { return *this = *this + b; }
    Scalar& operator-=(Scalar b) { return *this = *this - b; }
    Scalar& operator*=(Scalar b) { return *this = *this * b; }
    friend Scalar operator-(Scalar a) { return -a.lanes_; }
    friend Scalar operator+(Scalar a, Scalar b) { return a.lanes_ + b.lanes_; }
    friend Scalar operator-(Scalar a, Scalar b) { return a.lanes_ - b.lanes_; }
    friend Scalar operator*(Scalar a, Scalar b) { return a.lanes_ * b.lanes_; }
    template <typename Number>
    requires std::is_arithmetic_v<Number>
    friend Scalar operator*(Number a, Scalar b) { return Scalar(a) * b; }
    template <typename Number>
    requires std::is_arithmetic_v<Number>
    friend Scalar operator*(Scalar a, Number b) { return a * Scalar(b); }
    template <typename Number>
    requires std::is_arithmetic_v<Number>
    friend Scalar operator/(Scalar a, Number b) { return a.lanes_ / static_cast<float>(b); }

  private:
    Lanes lanes_;
};

using Complex = std::complex<Scalar>;

// KissFFT asks of its numbers that the parts of a complex one lie side by side.
static_assert(sizeof(Complex) == sizeof(ComplexLanes));

ComplexLanes lanes_of(const Complex& z) {
    return {z.real().lanes(), z.imag().lanes()};
}

} // namespace

struct Fourier::Plans {
    explicit Plans(std::size_t half)
        : forward(half, false), back(half, true), samples(2 * half), in(half), out(half) {
        for (std::size_t k = 0; k <= half / 2; ++k) // e^(πi (k / half + 1/2))
            half_turns.push_back(std::complex<float>(
                std::polar(1.0, std::numbers::pi
                                    * (static_cast<double>(k) / static_cast<double>(half) + 0.5))));
    }

    kissfft<Scalar> forward, back;
    std::vector<std::complex<float>> half_turns;
    std::vector<Scalar> samples;
    std::vector<Complex> in, out;
};

Fourier::Fourier(std::size_t size) : plans_(std::make_unique<Plans>(size / 2)) {}
Fourier::~Fourier() = default;
Fourier::Fourier(Fourier&&) noexcept = default;
Fourier& Fourier::operator=(Fourier&&) noexcept = default;

std::size_t Fourier::size() const {
    return plans_->samples.size();
}

void Fourier::forward(const Lanes* samples, ComplexLanes* spectrum) {
    std::vector<Complex>& out = plans_->out;
    std::copy_n(samples, size(), plans_->samples.begin());
    plans_->forward.transform_real(plans_->samples.data(), out.data());
    // The first value holds the two that are real.
    spectrum[0] = {out[0].real().lanes(), Lanes{}};
    spectrum[out.size()] = {out[0].imag().lanes(), Lanes{}};
    for (std::size_t k = 1; k < out.size(); ++k)
        spectrum[k] = lanes_of(out[k]);
}

/// Even samples and odd ones are the parts of half as many complex ones. At k and n - k their
/// transform is what the spectrum has in common there, and what it differs by, turned.
void Fourier::back(const ComplexLanes* spectrum, Lanes* samples) {
    std::vector<Complex>& in = plans_->in;
    const std::size_t n = in.size();
    for (std::size_t k = 0; k <= n / 2; ++k) {
        const ComplexLanes &low = spectrum[k], &high = spectrum[n - k];
        const float c = plans_->half_turns[k].real(), s = plans_->half_turns[k].imag();
        const Lanes re = low.re - high.re, im = low.im + high.im;
        const Lanes turned_re = re * c - im * s, turned_im = re * s + im * c;
        const Lanes even_re = low.re + high.re, even_im = low.im - high.im;
        in[k] = {even_re + turned_re, even_im + turned_im};
        if (k > 0)
            in[n - k] = {even_re - turned_re, turned_im - even_im};
    }
    plans_->back.transform(in.data(), plans_->out.data());
    for (std::size_t k = 0; k < n; ++k) {
        const auto [re, im] = lanes_of(plans_->out[k]);
        samples[2 * k] = re, samples[2 * k + 1] = im;
    }
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
