// Source: three multiplications bring the ratio near 1, as in R. P. Brent and P. Zimmermann,
// "Modern Computer Arithmetic" (2010), section 4.4.2; there the series of the inverse hyperbolic
// tangent is short.

#include <sectio/interval/fixed_log2.hpp>
#include <sectio/interval/thread_constants.hpp>

#include <array>
#include <cmath>
#include <map>

namespace sectio {

namespace {

/// The factors r / 2^bits that bring x near 1: r is the whole number nearest to 2^bits / x.
constexpr std::array<int, 3> factor_bits{6, 12, 18};

/// floor(2^fixed_log2_bits * f(x)) for a function of MPFR, which rounds correctly.
template <class Function>
Integer kept(unsigned long x, Function f) {
    let_constants_go_with_the_thread();
    mpfr_t value;
    mpfr_init2(value, fixed_log2_bits + 32); // |f(x)| < 2^31
    mpfr_set_ui(value, x, MPFR_RNDN);
    f(value);
    mpfr_mul_2si(value, value, fixed_log2_bits, MPFR_RNDN);
    Integer floor;
    mpfr_get_z(floor.backend().data(), value, MPFR_RNDD);
    mpfr_clear(value);
    return floor;
}

/// log2 of a factor's numerator, made when it is first met: there are less than 300 of them.
const Integer& log2_of_factor(unsigned long r) {
    thread_local std::map<unsigned long, Integer> met;
    const auto [place, added] = met.try_emplace(r);
    if (added)
        place->second = kept(r, [](mpfr_ptr x) { mpfr_log2(x, x, MPFR_RNDN); });
    return place->second;
}

const Integer& two_over_ln2() {
    static const Integer value = kept(2, [](mpfr_ptr x) {
        mpfr_log(x, x, MPFR_RNDN);
        mpfr_ui_div(x, 2, x, MPFR_RNDN);
    });
    return value;
}

/// 2^bits * atanh(s / 2^bits) for |s| < 2^(bits - 19), by its series: the sum of s^n / n over odd
/// n. Every step cuts less than one unit off a power and another off a term, and the powers' losses
/// shrink with the next: with n terms the sum is off by less than 2n units.
Integer atanh_sum(const Integer& s, long bits) {
    Integer power = abs(s), square = power * power, term, sum = power;
    square >>= bits;
    for (unsigned n = 3; power != 0; n += 2) {
        power *= square;
        power >>= bits;
        term = power / n;
        sum += term;
    }
    return s < 0 ? Integer(-sum) : sum;
}

/// Shifted by some bits up, or down with what is cut off below.
Integer shifted(Integer n, long bits) {
    if (bits >= 0)
        n <<= bits;
    else
        n >>= -bits;
    return n;
}

} // namespace

// Error: the quotient s is cut by less than one unit (of 2^-bits), which moves atanh by as much;
// the series has at most 15 terms, as each is 2^38 times smaller than the one before. That makes 31
// units, times 2 / ln 2 < 2.89 less than 90; the factors' logarithms, the constant and its product
// are cut five times more. All stays below 2^7. A double chooses the factors, and any choice near
// it is right.
Integer fixed_log2(const Integer& above, const Integer& below, long bits) {
    long above_exponent = 0, below_exponent = 0;
    double x = mpz_get_d_2exp(&above_exponent, above.backend().data())
               / mpz_get_d_2exp(&below_exponent, below.backend().data());
    const long octaves = above_exponent - below_exponent;
    Integer factor = 1, log2_of_factors = 0;
    long shift = octaves;
    for (const int b : factor_bits) {
        const double r = std::round(std::ldexp(1 / x, b));
        x *= std::ldexp(r, -b);
        factor *= static_cast<unsigned long>(r);
        log2_of_factors += log2_of_factor(static_cast<unsigned long>(r));
        shift += b;
    }
    const Integer a = shifted(above * factor, std::max(0L, -shift));
    const Integer b = shifted(below, std::max(0L, shift));
    const Integer s = shifted(a - b, bits) / (a + b);
    const Integer rest =
        shifted(atanh_sum(s, bits) * shifted(two_over_ln2(), bits - fixed_log2_bits), -bits);
    return rest - shifted(log2_of_factors, bits - fixed_log2_bits) + shifted(Integer(shift), bits);
}

} // namespace sectio
