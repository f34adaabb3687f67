// The size of an interval: enclosures, certified decimals, and the order that rests on them.

#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/interval/fixed_log2.hpp>
#include <sectio/interval/interval.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/interval/real.hpp>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

/// Numerator and denominator of a frequency ratio in lowest terms.
struct Terms {
    Integer above, below;
};

/// The terms of a rational frequency ratio, if both have at most `most_bits` bits.
std::optional<Terms> terms_within(const Factors& factors, std::size_t most_bits) {
    Terms terms{1, 1};
    for (const Factor& f : factors) {
        const auto exponent = f.exponent.numerator().backend().data();
        if (!is_whole(f.exponent) || !mpz_fits_sint_p(exponent))
            return std::nullopt;
        const long signed_times = mpz_get_si(exponent);
        const auto times = static_cast<std::size_t>(std::abs(signed_times));
        if ((bit_length(f.base) - 1) * times > most_bits)
            return std::nullopt;
        Integer& term = signed_times > 0 ? terms.above : terms.below;
        if (times == 1)
            term *= f.base;
        else
            term *= boost::multiprecision::pow(f.base, static_cast<unsigned>(times));
        if (bit_length(term) > most_bits)
            return std::nullopt;
    }
    return terms; // in lowest terms, since the bases are coprime
}

/// scale * log2(ratio) rounded to a whole number, if fixed_log2() to `bits` decides it.
std::optional<Integer> scaled_log2(const Terms& ratio, const Integer& scale, long bits) {
    const Integer scaled = fixed_log2(ratio.above, ratio.below, bits) * scale;
    const Integer half = Integer(1) << static_cast<unsigned>(bits - 1);
    Integer nearest = (scaled + half) >> static_cast<unsigned>(bits);
    const Integer distance = abs(scaled - (nearest << static_cast<unsigned>(bits)));
    if (distance + (scale << fixed_log2_error) >= half)
        return std::nullopt;
    return nearest;
}

/// Its cents times 10^digits, rounded, if doubles decide it: they lie within the bound, which pays
/// for the rounding of the product too, and so does what is rounded as they are.
std::optional<Integer> estimated_cents(const Interval& interval, int digits) {
    constexpr int most_digits = 6;
    if (digits > most_digits)
        return std::nullopt;
    const Interval::Estimate octaves = interval.estimate();
    const double scale = 1200 * std::pow(10.0, digits), scaled = octaves.value * scale;
    const double bound = octaves.error_bound * scale + std::abs(scaled) * 0x1p-51;
    const double nearest = std::nearbyint(scaled);
    if (!(std::abs(scaled - nearest) + bound < 0.5 && std::abs(scaled) < 0x1p50))
        return std::nullopt;
    return Integer(static_cast<long long>(nearest));
}

/// Its cents times 10^digits, rounded. The first precision leaves one ratio in 2^50 undecided, or
/// it has many digits; both go to enclosures, and so does what is no ratio.
Integer scaled_cents(const Interval& interval, int digits) {
    if (const auto estimated = estimated_cents(interval, digits))
        return *estimated;
    const Integer scale = 1200 * power_of_ten(digits);
    const long bits = 64 + static_cast<long>(bit_length(scale));
    if (bits <= fixed_log2_bits)
        if (const auto terms = terms_within(interval.factors(), 2 * limits::term_bits))
            if (const auto scaled = scaled_log2(*terms, scale, bits))
                return *scaled;
    return Real::enclosed([&interval](long precision) {
               return interval.octaves(precision) * Enclosure(Integer(1200), precision);
           })
        .scaled(digits);
}

double to_double(const Rational& r) {
    boost::multiprecision::mpq_rational q;
    mpz_set(mpq_numref(q.backend().data()), r.numerator().backend().data());
    mpz_set(mpq_denref(q.backend().data()), r.denominator().backend().data());
    return mpq_get_d(q.backend().data());
}

double log2_of(const Integer& n) {
    long exponent = 0;
    const double mantissa = mpz_get_d_2exp(&exponent, n.backend().data());
    return std::log2(mantissa) + static_cast<double>(exponent);
}

} // namespace

std::optional<Rational> Interval::ratio() const {
    const auto terms = terms_within(factors_, limits::term_bits);
    return terms ? std::optional(Rational(terms->above, terms->below)) : std::nullopt;
}

Enclosure Interval::octaves(long bits) const {
    if (const auto terms = terms_within(factors_, 2 * limits::term_bits))
        return log2(Enclosure(terms->above, bits) / Enclosure(terms->below, bits));
    Enclosure sum(bits);
    for (const Factor& f : factors_)
        sum = sum + log2(Enclosure(f.base, bits)) * Enclosure(f.exponent, bits);
    return sum;
}

Interval::Estimate Interval::estimate() const {
    // Each term e * log2(b) is off by at most 8 ulp of |e| (log2 b + 2): the mantissa is cut by one
    // ulp, log2 and the three sums and products round by one ulp each, mpq_get_d cuts by one.
    // Adding n terms costs n ulp of the sum of magnitudes more. 2^-52 is one ulp of 1.
    double sum = 0, magnitude = 0;
    for (const Factor& f : factors_) {
        const double exponent = to_double(f.exponent), size = log2_of(f.base);
        sum += exponent * size;
        magnitude += std::abs(exponent) * (size + 2);
    }
    const double terms = static_cast<double>(factors_.size());
    return {sum, (terms + 8) * 0x1p-52 * magnitude};
}

std::strong_ordering operator<=>(const Interval& a, const Interval& b) {
    const Interval::Estimate size_a = a.estimate(), size_b = b.estimate();
    const double apart = size_a.value - size_b.value;
    // The hundredth pays for the rounding of this difference and sum, each 2^-53 of itself.
    if (std::abs(apart) > 1.01 * (size_a.error_bound + size_b.error_bound))
        return apart > 0 ? std::strong_ordering::greater : std::strong_ordering::less;
    const Interval difference(quotient(a.factors_, b.factors_));
    if (difference.is_unison())
        return std::strong_ordering::equal;
    if (const auto terms = terms_within(difference.factors_, 2 * limits::term_bits))
        return terms->above > terms->below ? std::strong_ordering::greater
                                           : std::strong_ordering::less;
    const int sign = certified_sign([&](long bits) { return difference.octaves(bits); });
    return sign > 0 ? std::strong_ordering::greater : std::strong_ordering::less;
}

std::string Interval::cents(int digits) const {
    check_digits(digits);
    if (const auto exact = exact_cents())
        return sectio::decimal(*exact, digits);
    return decimal_text(scaled_cents(*this, digits), digits);
}

Real size_in_cents(const Interval& interval) {
    if (const auto exact = interval.exact_cents())
        return *exact;
    return Real::scaled_by([interval](int digits) { return scaled_cents(interval, digits); });
}

double Interval::cents() const {
    if (const auto exact = exact_cents())
        return certified_double([&exact](long bits) { return Enclosure(*exact, bits); });
    return certified_double(
        [this](long bits) { return octaves(bits) * Enclosure(Integer(1200), bits); });
}

namespace {

void require_reachable(const Interval& a) {
    if (a.is_ratio() || std::abs(a.estimate().value) > static_cast<double>(limits::term_bits))
        throw error(message::ratio_out_of_reach, to_expression(a), {}, limits::term_bits);
}

} // namespace

double Interval::decimal() const {
    if (const auto exact = ratio())
        return certified_double([&exact](long bits) { return Enclosure(*exact, bits); });
    require_reachable(*this);
    return certified_double([this](long bits) { return exp2(octaves(bits)); });
}

std::string Interval::decimal(int digits) const {
    check_digits(digits);
    if (const auto exact = ratio())
        return sectio::decimal(*exact, digits);
    require_reachable(*this);
    // Irrational, so never an exact half.
    return certified_decimal([this](long bits) { return exp2(octaves(bits)); }, digits);
}

Real frequency_ratio(const Interval& interval) {
    if (const auto exact = interval.ratio())
        return *exact;
    require_reachable(interval);
    return Real::enclosed([interval](long bits) { return exp2(interval.octaves(bits)); });
}

} // namespace sectio
