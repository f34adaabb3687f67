#pragma once
/// @file
/// The exact interval: the one type for ratios, steps of equal divisions, cents and rational
/// powers.

#include <sectio/base/number.hpp>
#include <sectio/interval/enclosure.hpp>
#include <sectio/interval/factor.hpp>

#include <compare>
#include <concepts>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace sectio {

/// A distance between two pitches: a frequency ratio that is a product of rational powers of whole
/// numbers. 3/2, 31of53 (2^(31/53)), 701.955c (2^(701955/1200000)) and 5^(1/4) are all of this
/// type.
///
/// Intervals form a group under laying end to end, written `+` here as in expressions: `a + b`
/// multiplies the frequency ratios, `-a` turns the interval downwards, `12 * a` is twelve of it,
/// and `a * Rational(1, 4)` a quarter of it. A rational multiple is again an interval, so division
/// by a whole number is always possible.
///
/// Equality is exact (see factor.hpp). Order is exact too: after equality is excluded the sign of
/// the size is found by enclosures of growing precision, which must end since the size is not zero.
/// A pitch is not an interval: see pitch.hpp.
class Interval {
  public:
    /// The unison, 1/1.
    Interval() = default;

    /// @throws Error zero_term for a term below 1, term_too_large beyond limits::term_bits
    static Interval from_ratio(const Integer& numerator, const Integer& denominator = 1);
    /// `step` steps of the division of `period` into `steps` equal parts.
    /// @throws Error zero_division for steps < 1, period_not_rising unless period > 1/1
    static Interval from_steps(const Integer& step, const Integer& steps, const Interval& period);
    static Interval from_steps(const Integer& step, const Integer& steps);
    /// Exactly `cents`, 1200 to the octave 2/1.
    static Interval from_cents(const Rational& cents);
    /// The decimal with `digits` after the point that is nearest to `cents`, half going to the even
    /// digit: from_cents(701.955, 3) is 701.955c. @throws Error not_finite, digits_out_of_range
    static Interval from_cents(double cents, int digits);
    /// The interval that had these factors().
    /// Precondition: they are in the canonical form of factor.hpp, as any interval's own are.
    /// @throws Error unfit_argument for bases that do not rise from 2 on, and exponents of 0
    static Interval from_factors(Factors factors);
    static const Interval& octave();

    friend Interval operator+(const Interval& a, const Interval& b);
    friend Interval operator-(const Interval& a, const Interval& b);
    friend Interval operator-(const Interval& a);
    friend Interval operator*(const Interval& a, const Rational& times);
    friend Interval operator*(const Integer& times, const Interval& a);
    friend Interval operator*(const Rational& times, const Interval& a) { return a * times; }
    template <std::integral Whole>
    friend Interval operator*(Whole times, const Interval& a) {
        return Integer(times) * a;
    }
    /// @throws Error divided_by_zero
    friend Interval operator/(const Interval& a, const Rational& parts);
    /// `a` or its descending twin, whichever does not descend.
    friend Interval abs(const Interval& a);
    Interval& operator*=(const Rational& times) { return *this = *this * times; }
    Interval& operator/=(const Rational& parts) { return *this = *this / parts; }
    Interval& operator+=(const Interval& b) { return *this = *this + b; }
    Interval& operator-=(const Interval& b) { return *this = *this - b; }

    friend bool operator==(const Interval& a, const Interval& b);
    /// @throws Error order_undecided beyond limits::precision_bits
    friend std::strong_ordering operator<=>(const Interval& a, const Interval& b);

    bool is_unison() const { return factors_.empty(); }
    /// True where the frequency ratio is a rational number, however long its terms.
    bool is_ratio() const;
    /// The frequency ratio, if it is rational and both terms stay within limits::term_bits.
    std::optional<Rational> ratio() const;
    /// The size in cents as an exact fraction, if it is one: for rational powers of 2 only, since
    /// log2 of any other such product is irrational (unique factorisation).
    std::optional<Rational> exact_cents() const;

    /// The coprime bases as kept, not necessarily primes.
    const Factors& factors() const { return factors_; }
    /// The factors split into primes, as far as factor.hpp's bounded search goes.
    Factors prime_factors(unsigned long budget = search_budget) const {
        return split_into_primes(factors_, budget);
    }

    /// Enclosure of log2 of the frequency ratio: the size in octaves.
    Enclosure octaves(long bits) const;
    /// Size in octaves as a double within `error_bound`, for speed where the error is accounted
    /// for.
    struct Estimate {
        double value;
        double error_bound;
    };
    Estimate estimate() const;

    /// Size in cents with `digits` after the point, correctly rounded (half to even where exactly
    /// half, which happens for powers of 2 only).
    /// @throws Error digits_out_of_range, rounding_undecided
    std::string cents(int digits) const;
    /// Size in cents as the nearest double. @throws Error rounding_undecided
    double cents() const;
    /// The frequency ratio as a decimal, correctly rounded likewise.
    /// @throws Error digits_out_of_range, ratio_out_of_reach, rounding_undecided
    std::string decimal(int digits) const;
    /// The frequency ratio as the nearest double; infinity where it is beyond all of them.
    /// @throws Error ratio_out_of_reach, rounding_undecided
    double decimal() const;

  private:
    explicit Interval(Factors factors) : factors_(std::move(factors)) {}
    Factors factors_;
};

/// All of them laid end to end, summed in pairs, so that a long stack costs little more than its
/// parts. @throws Error too_many_terms beyond limits::different_factors
Interval sum(std::vector<Interval> parts);

/// size(a) / size(b) where that is a rational number: where a is a rational multiple of b.
/// @throws Error zero_power_of_nothing where `b` is the unison
std::optional<Rational> exact_quotient(const Interval& a, const Interval& b);

/// Largest whole number k with k * period <= a (whole periods that fit, negative below the unison).
/// @throws Error period_not_rising unless period > 1/1
Integer whole_periods(const Interval& a, const Interval& period);

/// `a` brought into one period: the interval r with 1/1 <= r < period and a = k * period + r.
/// @throws Error period_not_rising unless period > 1/1
Interval reduced(const Interval& a, const Interval& period = Interval::octave());

inline Interval absolute(const Interval& a) {
    return abs(a);
}

/// The simplest expression that reads back as `a`:
/// - a ratio `3/2` where the terms have at most limits::term_bits, else a product `3^9000/2^14000`;
/// - for other powers of 2 steps `31of53`, or cents `701.955c` where these are a finite decimal and
///   written with fewer signs (`of` counting as one);
/// - steps of another whole-number period or of the fifth, `7of13(3/1)`, from 5 steps on;
/// - a rational power `5^(1/4)`, `(80/81)^(1/4)`; else a stack of such powers.
std::string to_expression(const Interval& a);

} // namespace sectio

/// Equal intervals have equal hashes, however their factors are kept.
template <>
struct std::hash<sectio::Interval> {
    std::size_t operator()(const sectio::Interval& interval) const;
};
