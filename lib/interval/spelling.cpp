// Intervals back to expressions.

#include <sectio/base/limits.hpp>
#include <sectio/interval/interval.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio {

namespace {

/// From this many steps on, roots of a whole number or of the fifth are written as steps of that
/// period: `7of13(3/1)`, but `5^(1/4)`.
constexpr int fewest_period_steps = 5;

std::string fraction(const Rational& r) {
    return fmt::format("{}/{}", r.numerator().str(), r.denominator().str());
}

/// Steps of the octave, or cents where they are a finite decimal and written with fewer signs, `of`
/// counting as one: `7of12` rather than 700c, `352c` rather than 22of75.
std::string octave_power(const Rational& octaves) {
    const std::string steps =
        fmt::format("{}of{}", octaves.numerator().str(), octaves.denominator().str());
    const std::string cents = exact_decimal(octaves * Integer(1200));
    return cents.empty() || steps.size() - 1 <= cents.size() + 1 ? steps : cents + "c";
}

/// `p^e` for one factor.
std::string prime_power(const Factor& f) {
    if (f.exponent == Rational(1))
        return f.base.str();
    if (f.exponent.denominator() == 1)
        return fmt::format("{}^{}", f.base.str(), f.exponent.numerator().str());
    return fmt::format("{}^({})", f.base.str(), fraction(f.exponent));
}

/// A rational interval whose terms are too long to be written out: 3^9000/2^14000.
std::string long_ratio(const Factors& factors) {
    std::string above, below;
    for (Factor f : factors) {
        std::string& side = f.exponent > Rational(0) ? above : below;
        f.exponent = f.exponent > Rational(0) ? f.exponent : Rational(-f.exponent);
        side += (side.empty() ? "" : " + ") + prime_power(f);
    }
    if (above.empty())
        above = "1";
    if (below.empty())
        return above;
    const auto grouped = [](const std::string& side) {
        return side.find(' ') == std::string::npos ? side : "(" + side + ")";
    };
    return grouped(above) + "/" + grouped(below);
}

/// Terms of a radicand stay within this many bits, so that a root reads well.
constexpr std::size_t radicand_bits = 64;

/// The root of a rational number that the interval is: `radicand` to the power `exponent`, the
/// exponents of `radicand` without common divisor.
struct Root {
    Rational radicand;
    Rational exponent;
};

std::optional<Root> as_root(const Interval& a) {
    Integer numerators = 0, denominators = 1;
    for (const Factor& f : a.factors()) {
        numerators = boost::multiprecision::gcd(numerators, f.exponent.numerator());
        denominators = boost::multiprecision::lcm(denominators, f.exponent.denominator());
    }
    const Rational exponent(numerators, denominators);
    for (const Factor& f : a.factors()) // bases are above 1: larger powers are out of question
        if (boost::multiprecision::abs((f.exponent / exponent).numerator()) > radicand_bits)
            return std::nullopt;
    const auto radicand = (a * Rational(1 / exponent)).ratio();
    if (!radicand || bit_length(radicand->numerator()) > radicand_bits
        || bit_length(radicand->denominator()) > radicand_bits)
        return std::nullopt;
    return Root{*radicand, exponent};
}

bool is_usual_period(const Rational& radicand) {
    return radicand.denominator() == 1 || radicand == Rational(3, 2);
}

/// Every factor on its own, joined as a stack.
std::string stack_of_powers(const Factors& factors) {
    std::string stack;
    for (const Factor& f : factors)
        stack += (stack.empty() ? "" : " + ") + prime_power(f);
    return stack;
}

std::string irrational(const Interval& a) {
    auto root = as_root(a);
    if (!root)
        return stack_of_powers(a.factors());
    if (is_usual_period(1 / root->radicand)) // rather 5^(-1/4) than (1/5)^(1/4)
        root = Root{1 / root->radicand, -root->exponent};
    const auto& [radicand, exponent] = *root;
    if (is_usual_period(radicand) && exponent.denominator() >= fewest_period_steps)
        return fmt::format("{}of{}({})", exponent.numerator().str(), exponent.denominator().str(),
                           fraction(radicand));
    const std::string base =
        radicand.denominator() == 1 ? radicand.numerator().str() : "(" + fraction(radicand) + ")";
    return fmt::format("{}^({})", base, fraction(exponent));
}

} // namespace

std::string to_expression(const Interval& a) {
    if (const auto ratio = a.ratio())
        return fraction(*ratio);
    if (a.is_ratio())
        return long_ratio(a.factors());
    if (const auto cents = a.exact_cents())
        return octave_power(*cents / Integer(1200));
    return irrational(a);
}

} // namespace sectio
