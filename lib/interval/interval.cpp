#include <sectio/base/argument.hpp>
#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/interval/interval.hpp>
#include <sectio/interval/messages.hpp>

#include <algorithm>
#include <cstddef>

namespace sectio {

namespace {

Integer checked_term(const Integer& term) {
    if (term < 1)
        throw error(message::zero_term, term.str(), {});
    if (bit_length(term) > limits::term_bits)
        throw error(message::term_too_large, "", {}, limits::term_bits);
    return term;
}

void require_rising(const Interval& period) {
    if (!(period > Interval()))
        throw error(message::period_not_rising, to_expression(period), {});
}

} // namespace

Interval Interval::from_ratio(const Integer& numerator, const Integer& denominator) {
    Integer above = checked_term(numerator), below = checked_term(denominator);
    if (const Integer common = boost::multiprecision::gcd(above, below); common != 1) {
        above /= common;
        below /= common;
    }
    // Coprime terms have coprime bases: both lists together are the canonical form.
    Factors a = factors_of(std::move(above), 1), b = factors_of(std::move(below), -1);
    Factors factors;
    factors.reserve(a.size() + b.size());
    std::merge(std::move_iterator(a.begin()), std::move_iterator(a.end()),
               std::move_iterator(b.begin()), std::move_iterator(b.end()),
               std::back_inserter(factors),
               [](const Factor& x, const Factor& y) { return x.base < y.base; });
    return Interval(std::move(factors));
}

Interval Interval::from_steps(const Integer& step, const Integer& steps, const Interval& period) {
    if (steps < 1)
        throw error(message::zero_division, steps.str(), {});
    require_rising(period);
    return period * Rational(step, steps);
}

Interval Interval::from_steps(const Integer& step, const Integer& steps) {
    return Interval::from_steps(step, steps, octave());
}

Interval Interval::from_factors(Factors factors) {
    Integer below = 1;
    for (const Factor& factor : factors) {
        check_argument(factor.base > below && factor.exponent.numerator() != 0,
                       "the factors of an interval", "powers of rising bases from 2 on");
        below = factor.base;
    }
    return Interval(std::move(factors));
}

Interval Interval::from_cents(const Rational& cents) {
    return octave() * (cents / Integer(1200));
}

Interval Interval::from_cents(double cents, int digits) {
    check_digits(digits);
    return from_cents(rounded(cents, digits));
}

const Interval& Interval::octave() {
    static const Interval octave = from_ratio(2);
    return octave;
}

Interval operator+(const Interval& a, const Interval& b) {
    return Interval(product(a.factors_, b.factors_));
}

Interval operator-(const Interval& a) {
    Factors turned = a.factors_; // in canonical form as before
    for (Factor& f : turned)
        f.exponent = -f.exponent;
    return Interval(std::move(turned));
}

Interval operator-(const Interval& a, const Interval& b) {
    return a + -b;
}

Interval operator*(const Interval& a, const Rational& times) {
    return Interval(power(a.factors_, times));
}

Interval operator*(const Integer& times, const Interval& a) {
    return a * Rational(times);
}

Interval operator/(const Interval& a, const Rational& parts) {
    if (parts == Rational(0))
        throw error(message::divided_by_zero, to_expression(a), {});
    return a * (Rational(1) / parts);
}

bool operator==(const Interval& a, const Interval& b) {
    const auto shared = aligned(a.factors_, b.factors_);
    return std::all_of(shared.begin(), shared.end(),
                       [](const AlignedFactor& f) { return f.first == f.second; });
}

bool Interval::is_ratio() const {
    return std::all_of(factors_.begin(), factors_.end(),
                       [](const Factor& f) { return is_whole(f.exponent); });
}

std::optional<Rational> Interval::exact_cents() const {
    if (is_unison())
        return Rational(0);
    if (factors_.size() > 1 || factors_.front().base != 2)
        return std::nullopt;
    return factors_.front().exponent * Integer(1200);
}

Interval sum(std::vector<Interval> parts) {
    for (; parts.size() > 1; parts.resize((parts.size() + 1) / 2))
        for (std::size_t i = 0; i < parts.size(); i += 2)
            parts[i / 2] = i + 1 < parts.size() ? parts[i] + parts[i + 1] : parts[i];
    return parts.empty() ? Interval() : parts.front();
}

std::optional<Rational> exact_quotient(const Interval& a, const Interval& b) {
    if (b.is_unison())
        throw error(message::zero_power_of_nothing, "", {});
    std::optional<Rational> quotient;
    for (const AlignedFactor& f : aligned(a.factors(), b.factors())) {
        if (f.second == Rational(0))
            return std::nullopt;
        const Rational here = f.first / f.second;
        if (quotient && *quotient != here)
            return std::nullopt;
        quotient = here;
    }
    return quotient;
}

Integer whole_periods(const Interval& a, const Interval& period) {
    require_rising(period);
    if (const auto quotient = exact_quotient(a, period))
        return floor(*quotient);
    return certified_floor([&](long bits) { return a.octaves(bits) / period.octaves(bits); });
}

Interval reduced(const Interval& a, const Interval& period) {
    return a - whole_periods(a, period) * period;
}

Interval abs(const Interval& a) {
    return a < Interval() ? -a : a;
}

} // namespace sectio

std::size_t std::hash<sectio::Interval>::operator()(const sectio::Interval& interval) const {
    // The primes that every product has apart, with their exponents. What is left may be kept as
    // different bases, and its size is then hashed: a function of the interval alone.
    std::size_t mixed = interval.factors().size();
    const auto mix = [&mixed](std::size_t part) { mixed = (mixed ^ part) * 1099511628211U; };
    for (const sectio::Factor& f : interval.factors()) {
        if (f.base > sectio::largest_split_prime)
            return std::hash<double>()(interval.cents());
        mix(mpz_get_ui(f.base.backend().data()));
        mix(static_cast<std::size_t>(mpz_get_si(f.exponent.numerator().backend().data())));
        mix(mpz_get_ui(f.exponent.denominator().backend().data()));
    }
    return mixed;
}
