#include <sectio/base/argument.hpp>
#include <sectio/base/error.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/base/number.hpp>

#include <cmath>
#include <cstdint>
#include <cstdlib>

namespace sectio {

namespace mp = boost::multiprecision;

std::size_t bit_length(const Integer& n) {
    return n == 0 ? 0 : mpz_sizeinbase(n.backend().data(), 2);
}

Integer floor(const Rational& r) {
    Integer q;
    mpz_fdiv_q(q.backend().data(), r.numerator().backend().data(),
               r.denominator().backend().data());
    return q;
}

namespace {

/// Nearest whole number to a fraction, which need not be in lowest terms.
Integer round_half_even(const Integer& numerator, const Integer& denominator) {
    Integer down, rest;
    mpz_fdiv_qr(down.backend().data(), rest.backend().data(), numerator.backend().data(),
                denominator.backend().data());
    rest *= 2;
    const int above_half = rest.compare(denominator);
    if (above_half > 0 || (above_half == 0 && mpz_odd_p(down.backend().data())))
        ++down;
    return down;
}

} // namespace

Integer round_half_even(const Rational& r) {
    return round_half_even(r.numerator(), r.denominator());
}

Rational rounded(double value, int digits) {
    if (!std::isfinite(value))
        throw error(message::not_finite, fmt::to_string(value), {});
    constexpr int mantissa_bits = 53;
    int exponent = 0;
    const double mantissa = std::ldexp(std::frexp(value, &exponent), mantissa_bits);
    const Integer whole(static_cast<std::int64_t>(mantissa));
    exponent -= mantissa_bits;
    const Integer power = Integer(1) << static_cast<unsigned>(std::abs(exponent));
    const Rational exact = exponent < 0 ? Rational(whole, power) : Rational(whole * power);
    return Rational(round_half_even(exact * power_of_ten(digits)), power_of_ten(digits));
}

namespace {

void check_places(int places) {
    check_argument(places >= 0 && places <= most_places, "the number of decimal places",
                   "from 0 to a million");
}

} // namespace

Integer power_of_ten(int n) {
    check_places(n);
    return mp::pow(Integer(10), static_cast<unsigned>(n));
}

std::string decimal_text(const Integer& scaled, int digits) {
    check_places(digits);
    std::string text = mp::abs(scaled).str();
    const auto places = static_cast<std::size_t>(digits);
    if (text.size() <= places)
        text.insert(0, places + 1 - text.size(), '0');
    if (places > 0)
        text.insert(text.size() - places, ".");
    return scaled < 0 ? "-" + text : text;
}

std::string decimal(const Rational& r, int digits) {
    return decimal_text(round_half_even(r.numerator() * power_of_ten(digits), r.denominator()),
                        digits);
}

namespace {

/// Takes every factor `p` out of `n` and returns how many there were.
int remove_factor(Integer& n, unsigned long p) {
    const Integer factor(p);
    return static_cast<int>(
        mpz_remove(n.backend().data(), n.backend().data(), factor.backend().data()));
}

} // namespace

std::string exact_decimal(const Rational& r) {
    Integer rest = r.denominator();
    const int twos = remove_factor(rest, 2);
    const int fives = remove_factor(rest, 5);
    // A fraction over 2^a 5^b ends after max(a, b) digits, and no sooner when in lowest terms.
    return rest == 1 ? decimal(r, std::max(twos, fives)) : std::string();
}

Rational parse_decimal(std::string_view text) {
    const bool negative = !text.empty() && text.front() == '-';
    std::string digits(text.substr(negative ? 1 : 0));
    int places = 0;
    if (const auto point = digits.find('.'); point != std::string::npos) {
        places = static_cast<int>(digits.size() - point - 1);
        digits.erase(point, 1);
    }
    check_argument(!digits.empty() && digits.find_first_not_of("0123456789") == digits.npos,
                   "a decimal number", "of digits with one point at most");
    // A leading zero would make GMP read octal.
    digits.erase(0, std::min(digits.find_first_not_of('0'), digits.size() - 1));
    const Rational value(Integer(digits), power_of_ten(places));
    return negative ? Rational(-value) : value;
}

} // namespace sectio
