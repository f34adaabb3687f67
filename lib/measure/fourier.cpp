#include <sectio/measure/fourier.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sectio::measure {

namespace {

using Turns = std::vector<std::complex<float>>;

ComplexLanes operator+(const ComplexLanes& a, const ComplexLanes& b) {
    return {a.re + b.re, a.im + b.im};
}

ComplexLanes operator-(const ComplexLanes& a, const ComplexLanes& b) {
    return {a.re - b.re, a.im - b.im};
}

/// A value turned, or, on the way back, turned against it: the real part is plus - minus.
struct Turned {
    Lanes plus, minus, im;

    ComplexLanes value() const { return {plus - minus, im}; }
};

template <bool is_back>
Turned turned(const ComplexLanes& a, const std::complex<float>& turn) {
    const float c = turn.real(), s = is_back ? -turn.imag() : turn.imag();
    return {a.re * c, a.im * s, a.re * s + a.im * c};
}

ComplexLanes operator+(const ComplexLanes& a, const Turned& b) {
    return {a.re + b.plus - b.minus, a.im + b.im};
}

ComplexLanes operator-(const ComplexLanes& a, const Turned& b) {
    return {a.re + b.minus - b.plus, a.im - b.im};
}

/// The sum and the difference of two that are turned.
std::pair<ComplexLanes, ComplexLanes> both_ways(const ComplexLanes& a, const Turned& b) {
    return {{a.re - b.minus + b.plus, a.im + b.im}, {a.re - b.plus + b.minus, a.im - b.im}};
}

/// b turned a quarter and added to a.
ComplexLanes quarter_plus(const ComplexLanes& a, const ComplexLanes& b) {
    return {a.re - b.im, a.im + b.re};
}

ComplexLanes quarter_minus(const ComplexLanes& a, const ComplexLanes& b) {
    return {a.re + b.im, a.im - b.re};
}

/// Joins two transforms of m, that lie behind one another.
template <bool is_back>
void join_two(ComplexLanes* out, std::size_t m, std::size_t stride, const Turns& turns) {
    for (std::size_t k = 0; k < m; ++k) {
        const ComplexLanes a = out[k];
        const Turned b = turned<is_back>(out[k + m], turns[k * stride]);
        out[k] = a + b;
        out[k + m] = a - b;
    }
}

template <bool is_back>
void join_three(ComplexLanes* out, std::size_t m, std::size_t stride, const Turns& turns) {
    const float third = is_back ? -turns[stride * m].imag() : turns[stride * m].imag();
    for (std::size_t k = 0; k < m; ++k) {
        const ComplexLanes a = out[k], b = turned<is_back>(out[k + m], turns[k * stride]).value();
        const auto [sum, apart] =
            both_ways(b, turned<is_back>(out[k + 2 * m], turns[2 * k * stride]));
        const ComplexLanes middle = {a.re - sum.re * 0.5F, a.im - sum.im * 0.5F},
                           aside = {apart.re * third, apart.im * third};
        out[k] = a + sum;
        out[k + m] = quarter_plus(middle, aside);
        out[k + 2 * m] = quarter_minus(middle, aside);
    }
}

template <bool is_back>
void join_four(ComplexLanes* out, std::size_t m, std::size_t stride, const Turns& turns) {
    for (std::size_t k = 0; k < m; ++k) {
        const ComplexLanes a = out[k], b = turned<is_back>(out[k + m], turns[k * stride]).value();
        const Turned c = turned<is_back>(out[k + 2 * m], turns[2 * k * stride]);
        const ComplexLanes even = a + c, even_apart = a - c;
        const auto [odd, odd_apart] =
            both_ways(b, turned<is_back>(out[k + 3 * m], turns[3 * k * stride]));
        out[k] = even + odd;
        out[k + 2 * m] = even - odd;
        out[k + (is_back ? m : 3 * m)] = quarter_plus(even_apart, odd_apart);
        out[k + (is_back ? 3 * m : m)] = quarter_minus(even_apart, odd_apart);
    }
}

/// What is even of two values at k and n - k, and what is odd, turned, to and from the values of a
/// real signal there.
template <bool is_back>
std::pair<ComplexLanes, ComplexLanes> unwound(const ComplexLanes& low, const ComplexLanes& high,
                                              const std::complex<float>& turn) {
    const float c = turn.real(), s = is_back ? -turn.imag() : turn.imag();
    const ComplexLanes even = {low.re + high.re, low.im - high.im},
                       odd = {low.re - high.re, low.im + high.im};
    const Lanes across = odd.re * s + odd.im * c;
    return {{even.re + odd.re * c - odd.im * s, even.im + across},
            {even.re + odd.im * s - odd.re * c, across - even.im}};
}

} // namespace

Fourier::Fourier(std::size_t size) : turned_(size / 2), pairs_(size) {
    const double part = 1 / static_cast<double>(size / 2);
    const auto turn = [](double radians) { return std::complex<float>(std::polar(1.0, -radians)); };
    for (std::size_t k = 0; k < size / 2; ++k)
        turns_.push_back(turn(static_cast<double>(k) * (part * 2 * std::numbers::pi)));
    for (std::size_t k = 1; k <= size / 4; ++k)
        half_turns_.push_back(turn((static_cast<double>(k) * part + 0.5) * std::numbers::pi));
}

/// The complex numbers that lie `stride` pairs apart: by as many transforms of every fourth of
/// them, or second, or third.
template <bool is_back>
void Fourier::transform(ComplexLanes* out, const Lanes* pairs, std::size_t stride) const {
    const std::size_t size = turned_.size() / stride;
    const std::size_t radix = size % 4 == 0 ? 4 : size % 2 == 0 ? 2 : size;
    const std::size_t m = size / radix;
    for (std::size_t part = 0; part < radix; ++part) {
        const Lanes* first = pairs + 2 * part * stride;
        if (m == 1)
            out[part] = {first[0], first[1]};
        else
            transform<is_back>(out + part * m, first, stride * radix);
    }
    if (radix == 4)
        join_four<is_back>(out, m, stride, turns_);
    else if (radix == 3)
        join_three<is_back>(out, m, stride, turns_);
    else if (radix == 2)
        join_two<is_back>(out, m, stride, turns_);
}

/// Two real samples are a complex one; what is even and what is odd of its transform are theirs.
void Fourier::forward(const Lanes* samples, ComplexLanes* spectrum) {
    transform<false>(turned_.data(), samples, 1);
    const std::size_t n = turned_.size();
    const ComplexLanes first = turned_[0];
    spectrum[0] = {first.re + first.im, Lanes{}};
    spectrum[n] = {first.re - first.im, Lanes{}};
    for (std::size_t k = 1; k <= n / 2; ++k) {
        const auto [low, high] = unwound<false>(turned_[k], turned_[n - k], half_turns_[k - 1]);
        spectrum[k] = {low.re * 0.5F, low.im * 0.5F};
        spectrum[n - k] = {high.re * 0.5F, high.im * 0.5F};
    }
}

void Fourier::back(const ComplexLanes* spectrum, Lanes* samples) {
    const std::size_t n = turned_.size();
    const auto put = [&](std::size_t k, const ComplexLanes& value) {
        pairs_[2 * k] = value.re, pairs_[2 * k + 1] = value.im;
    };
    put(0, {spectrum[0].re + spectrum[n].re, spectrum[0].re - spectrum[n].re});
    for (std::size_t k = 1; k <= n / 2; ++k) {
        const auto [low, high] = unwound<true>(spectrum[k], spectrum[n - k], half_turns_[k - 1]);
        put(k, low);
        put(n - k, high);
    }
    transform<true>(turned_.data(), pairs_.data(), 1);
    for (std::size_t k = 0; k < n; ++k)
        samples[2 * k] = turned_[k].re, samples[2 * k + 1] = turned_[k].im;
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
