#include <sectio/measure/fourier.hpp>

#include <array>
#include <cmath>
#include <cstring>
#include <numbers>
#include <utility>

namespace sectio::measure {

namespace {

// Stockham's transform in passes of 4, at last one of 2 or 3. Source: C. Van Loan, "Computational
// Frameworks for the Fast Fourier Transform", 1992, 1.7. Real and imaginary parts lie apart, so
// that four butterflies are computed at a time.

/// Four numbers side by side, or one.
using Four = float __attribute__((vector_size(16)));

template <typename T>
struct Complex {
    T re, im;

    friend Complex operator+(Complex a, Complex b) { return {a.re + b.re, a.im + b.im}; }
    friend Complex operator-(Complex a, Complex b) { return {a.re - b.re, a.im - b.im}; }
    friend Complex operator*(Complex a, Complex b) {
        return {a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re};
    }
    friend Complex operator*(float a, Complex b) { return {a * b.re, a * b.im}; }
    Complex conj() const { return {re, -im}; }
    Complex quarter_back() const { return {im, -re}; } ///< times -i
};
using Number = Complex<float>;

struct Split {
    std::vector<float> re, im;

    explicit Split(std::size_t size) : re(size), im(size) {}
    /// One number or four, from place i on.
    template <typename T>
    Complex<T> at(std::size_t i) const {
        Complex<T> z;
        std::memcpy(&z.re, re.data() + i, sizeof(T));
        std::memcpy(&z.im, im.data() + i, sizeof(T));
        return z;
    }
    template <typename T>
    void put(std::size_t i, Complex<T> z) {
        std::memcpy(re.data() + i, &z.re, sizeof(T));
        std::memcpy(im.data() + i, &z.im, sizeof(T));
    }
};

/// e^(-2πi part)
Number turned(double part) {
    const double angle = -2 * std::numbers::pi * part;
    return {static_cast<float>(std::cos(angle)), static_cast<float>(std::sin(angle))};
}

template <typename T>
std::array<Complex<T>, 2> butterfly(const std::array<Complex<T>, 2>& x) {
    return {x[0] + x[1], x[0] - x[1]};
}

template <typename T>
std::array<Complex<T>, 3> butterfly(const std::array<Complex<T>, 3>& x) {
    constexpr float sine = std::numbers::sqrt3_v<float> / 2;
    const Complex<T> sum = x[1] + x[2], mean = x[0] - 0.5F * sum;
    const Complex<T> across = (sine * (x[1] - x[2])).quarter_back();
    return {x[0] + sum, mean + across, mean - across};
}

template <typename T>
std::array<Complex<T>, 4> butterfly(const std::array<Complex<T>, 4>& x) {
    const Complex<T> even = x[0] + x[2], odd = x[1] + x[3], difference = x[0] - x[2];
    const Complex<T> across = (x[1] - x[3]).quarter_back();
    return {even + odd, difference + across, even - odd, difference - across};
}

/// A pass over numbers in `length / radix` butterflies, each done for `stride` of them.
struct Pass {
    std::size_t radix, butterflies, stride;
    std::vector<Split> factors; ///< of each butterfly's results; those of the first are 1

    Pass(std::size_t radix_, std::size_t length, std::size_t stride_)
        : radix(radix_), butterflies(length / radix_), stride(stride_),
          factors(radix_, Split(length / radix_)) {
        for (std::size_t k = 0; k < radix; ++k)
            for (std::size_t p = 0; p < butterflies; ++p)
                factors[k].put(p, turned(static_cast<double>(k * p) / static_cast<double>(length)));
    }
};

template <typename T, std::size_t radix>
void run(const Pass& pass, const Split& x, Split& y) {
    constexpr std::size_t at_once = sizeof(T) / sizeof(float);
    const std::size_t apart = pass.butterflies * pass.stride;
    for (std::size_t p = 0; p < pass.butterflies; ++p) {
        std::array<Complex<T>, radix> factors, read;
        for (std::size_t k = 1; k < radix; ++k)
            factors[k] = {T{} + pass.factors[k].re[p], T{} + pass.factors[k].im[p]};
        for (std::size_t q = 0; q < pass.stride; q += at_once) {
            const std::size_t from = p * pass.stride + q, to = radix * p * pass.stride + q;
            for (std::size_t k = 0; k < radix; ++k)
                read[k] = x.at<T>(from + k * apart);
            const std::array<Complex<T>, radix> found = butterfly(read);
            y.put(to, found[0]);
            for (std::size_t k = 1; k < radix; ++k)
                y.put(to + k * pass.stride, factors[k] * found[k]);
        }
    }
}

/// Rows become columns.
void transpose(std::array<Four, 4>& rows) {
    const Four a = __builtin_shufflevector(rows[0], rows[1], 0, 4, 1, 5),
               b = __builtin_shufflevector(rows[2], rows[3], 0, 4, 1, 5),
               c = __builtin_shufflevector(rows[0], rows[1], 2, 6, 3, 7),
               d = __builtin_shufflevector(rows[2], rows[3], 2, 6, 3, 7);
    rows = {__builtin_shufflevector(a, b, 0, 1, 4, 5), __builtin_shufflevector(a, b, 2, 3, 6, 7),
            __builtin_shufflevector(c, d, 0, 1, 4, 5), __builtin_shufflevector(c, d, 2, 3, 6, 7)};
}

/// A first pass of 4: four butterflies that lie side by side, whose results each lie together.
void run_first(const Pass& pass, const Split& x, Split& y) {
    for (std::size_t p = 0; p < pass.butterflies; p += 4) {
        std::array<Complex<Four>, 4> read;
        for (std::size_t k = 0; k < 4; ++k)
            read[k] = x.at<Four>(p + k * pass.butterflies);
        const std::array<Complex<Four>, 4> found = butterfly(read);
        std::array<Four, 4> re, im;
        for (std::size_t k = 0; k < 4; ++k) {
            const Complex<Four> z = pass.factors[k].at<Four>(p) * found[k];
            re[k] = z.re, im[k] = z.im;
        }
        transpose(re), transpose(im);
        for (std::size_t k = 0; k < 4; ++k)
            y.put(4 * (p + k), Complex<Four>{re[k], im[k]});
    }
}

template <std::size_t radix>
void run_any(const Pass& pass, const Split& x, Split& y) {
    if (pass.stride % 4 == 0)
        run<Four, radix>(pass, x, y);
    else
        run<float, radix>(pass, x, y);
}

std::vector<Pass> passes_of(std::size_t size) {
    std::vector<Pass> passes;
    for (std::size_t length = size, stride = 1; length > 1;) {
        const std::size_t radix = length % 4 == 0 ? 4 : length % 2 == 0 ? 2 : 3;
        passes.emplace_back(radix, length, stride);
        length /= radix, stride *= radix;
    }
    return passes;
}

} // namespace

/// Real samples are transformed as half as many complex ones: even places are the real parts.
struct Fourier::Plan {
    std::size_t half;
    std::vector<Pass> passes;
    Split x, y, turns;

    explicit Plan(std::size_t size)
        : half(size / 2), passes(passes_of(half)), x(half), y(half), turns(half + 1) {
        for (std::size_t k = 0; k <= half; ++k)
            turns.put(k, turned(static_cast<double>(k) / static_cast<double>(size)));
    }

    /// Transforms x; what comes out is in x again.
    void transform() {
        for (const Pass& pass : passes) {
            if (pass.radix == 4 && pass.stride == 1 && pass.butterflies % 4 == 0)
                run_first(pass, x, y);
            else if (pass.radix == 4)
                run_any<4>(pass, x, y);
            else if (pass.radix == 3)
                run_any<3>(pass, x, y);
            else
                run_any<2>(pass, x, y);
            std::swap(x, y);
        }
    }
};

Fourier::Fourier(std::size_t size) : size_(size), plan_(std::make_unique<Plan>(size)) {}
Fourier::~Fourier() = default;
Fourier::Fourier(Fourier&&) noexcept = default;
Fourier& Fourier::operator=(Fourier&&) noexcept = default;

void Fourier::forward(const float* samples, std::complex<float>* spectrum) const {
    Plan& plan = *plan_;
    const std::size_t half = plan.half;
    for (std::size_t i = 0; i < half; ++i)
        plan.x.re[i] = samples[2 * i], plan.x.im[i] = samples[2 * i + 1];
    plan.transform();
    const Number ends = plan.x.at<float>(0);
    spectrum[0] = ends.re + ends.im;
    spectrum[half] = ends.re - ends.im;
    for (std::size_t k = 1; k < half; ++k) {
        const Number z = plan.x.at<float>(k), mirrored = plan.x.at<float>(half - k).conj();
        const Number odd = plan.turns.at<float>(k) * (z - mirrored).quarter_back();
        const Number both = 0.5F * (z + mirrored + odd);
        spectrum[k] = {both.re, both.im};
    }
}

void Fourier::back(const std::complex<float>* spectrum, float* samples) const {
    Plan& plan = *plan_;
    const auto number = [&](std::size_t k) {
        return Number{spectrum[k].real(), spectrum[k].imag()};
    };
    for (std::size_t k = 0; k < plan.half; ++k) {
        const Number mirrored = number(plan.half - k).conj();
        const Number odd = plan.turns.at<float>(k).conj() * (number(k) - mirrored);
        const Number z = number(k) + mirrored - odd.quarter_back();
        // With real and imaginary part exchanged, forward is back.
        plan.x.put(k, Number{z.im, z.re});
    }
    plan.transform();
    for (std::size_t i = 0; i < plan.half; ++i)
        samples[2 * i] = plan.x.im[i], samples[2 * i + 1] = plan.x.re[i];
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

} // namespace sectio::measure
