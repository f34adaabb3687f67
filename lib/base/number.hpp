#pragma once
/// @file
/// The number types of the exact engine.

#include <boost/multiprecision/gmp.hpp>
#include <boost/rational.hpp>

#include <string>
#include <string_view>

namespace sectio {

/// A whole number of any size.
using Integer =
    boost::multiprecision::number<boost::multiprecision::gmp_int, boost::multiprecision::et_off>;

} // namespace sectio

/// boost::rational reduces by this; GMP's own gcd is faster than the generic one.
template <>
struct boost::integer::gcd_evaluator<sectio::Integer> {
    sectio::Integer operator()(const sectio::Integer& a, const sectio::Integer& b) const {
        return boost::multiprecision::gcd(a, b);
    }
};

namespace sectio {

/// An exact fraction, always in lowest terms with a positive denominator.
using Rational = boost::rational<Integer>;

/// Bits of |n|; 0 for 0.
std::size_t bit_length(const Integer& n);

inline bool is_whole(const Rational& r) {
    return r.denominator() == 1;
}

/// Largest whole number not above `r`.
Integer floor(const Rational& r);

/// Nearest whole number to `r`; exactly half goes to the even one.
Integer round_half_even(const Rational& r);

/// The fraction with `digits` digits after the point that is nearest to `value`, exactly half going
/// to the even digit. @throws Error not_finite for infinity and what is no number
Rational rounded(double value, int digits);

/// More places after the point no number here has.
inline constexpr int most_places = 1'000'000;

/// `r` with `digits` digits after the point, exactly half going to the even digit. A value that
/// rounds to zero has no minus sign.
std::string decimal(const Rational& r, int digits);

/// `scaled` / 10^digits as text: decimal_text(-1234, 2) is "-12.34".
std::string decimal_text(const Integer& scaled, int digits);

/// 10^n. @throws Error unfit_argument unless `n` is 0 … most_places
Integer power_of_ten(int n);

/// Shortest exact decimal of `r` ("-0.25"), or an empty string where its denominator has a prime
/// factor other than 2 and 5.
std::string exact_decimal(const Rational& r);

/// Reads "12", "-0.25", "701.955". @throws Error unfit_argument for a text of another form
Rational parse_decimal(std::string_view text);

} // namespace sectio
