#include <sectio/interval/beat_rate.hpp>

namespace sectio {

BeatRate BeatRate::between(const Pitch& a, const Pitch& b, const Integer& m, const Integer& n) {
    Pitch first = a + Interval::from_ratio(m), second = b + Interval::from_ratio(n);
    return first < second ? BeatRate(std::move(first), std::move(second))
                          : BeatRate(std::move(second), std::move(first));
}

std::string BeatRate::decimal(int digits) const {
    const auto low = low_.above_hertz().ratio(), high = high_.above_hertz().ratio();
    if (low && high) {
        check_digits(digits);
        return sectio::decimal(*high - *low, digits);
    }
    if (none())
        return sectio::decimal(Rational(0), digits);
    // No exact half: different products of rational powers of primes, of which one at least is
    // irrational, have an irrational difference, since those that are no rational multiples of one
    // another are linearly independent over the rationals. Source: A. S. Besicovitch, On the linear
    // independence of fractional powers of integers, J. London Math. Soc. 15 (1940), 3-6.
    return certified_decimal(
        [&](long bits) {
            return exp2(high_.above_hertz().octaves(bits)) - exp2(low_.above_hertz().octaves(bits));
        },
        digits);
}

} // namespace sectio
