#pragma once
/// @file
/// Real numbers known to lie between two bounds, and decimals that are certified by them.
///
/// Every operation rounds its lower bound down and its upper bound up (MPFI over MPFR, whose
/// functions are correctly rounded), so the true value never leaves the enclosure.
/// Source: N. Revol, F. Rouillier, "Motivations for an arbitrary precision interval arithmetic and
/// the MPFI library", Reliable Computing 11 (2005).

#include <sectio/base/number.hpp>

#include <mpfi.h>

#include <functional>
#include <optional>
#include <string>

namespace sectio {

/// A closed interval of reals that holds the true value. Operands of different precision give a
/// result of the larger one.
class Enclosure {
  public:
    static constexpr long most_bits = 1L << 26;

    /// Exactly 0, at `bits` (1 to most_bits) of precision for what is computed from it.
    /// @throws Error unfit_argument, as the next two
    explicit Enclosure(long bits);
    Enclosure(const Integer& value, long bits);
    Enclosure(const Rational& value, long bits);
    Enclosure(const Enclosure& other);
    Enclosure(Enclosure&& other) noexcept;
    Enclosure& operator=(Enclosure other) noexcept;
    ~Enclosure();

    long bits() const;

    friend Enclosure operator+(const Enclosure& a, const Enclosure& b);
    friend Enclosure operator-(const Enclosure& a, const Enclosure& b);
    friend Enclosure operator*(const Enclosure& a, const Enclosure& b);
    /// Precondition: `b` does not hold 0; else the bounds are infinite.
    friend Enclosure operator/(const Enclosure& a, const Enclosure& b);

    /// Precondition of this and the next: every value in `a` has one; else the bounds are no
    /// numbers.
    friend Enclosure sqrt(const Enclosure& a);
    friend Enclosure log2(const Enclosure& a);
    friend Enclosure exp2(const Enclosure& a);

    /// -1 or 1 where every value in it has that sign, 0 for exactly zero, nothing when undecided.
    std::optional<int> sign() const;
    /// The whole number that every value in it rounds to (nearest), if there is one.
    std::optional<Integer> rounded() const;
    /// The whole number just below every value in it, if there is one.
    std::optional<Integer> floored() const;
    /// Some double inside or next to it, for estimates only; none where the bounds are no numbers.
    double estimate() const;
    /// The double that every value in it rounds to (nearest), if there is one.
    std::optional<double> narrow() const;

  private:
    mpfi_t value_;
};

/// A real that can be enclosed as narrowly as wished: a function from precision in bits to
/// enclosures of the same number.
using RealFunction = std::function<Enclosure(long bits)>;

/// `value` with `digits` (0 to limits::decimal_digits) after the point, correctly rounded.
/// Precondition: the value is no exact half in the last place, since no enclosure can decide that;
/// callers take rational values to decimal(Rational, int).
/// @throws Error digits_out_of_range, rounding_undecided
std::string certified_decimal(const RealFunction& value, int digits);

/// Nearest whole number of a real that is no exact half.
/// @throws Error rounding_undecided
Integer certified_round(const RealFunction& value);

/// Largest whole number not above a real that is no whole number itself.
/// @throws Error rounding_undecided
Integer certified_floor(const RealFunction& value);

/// A real as the nearest double; exactly half way, which an enclosure of a single number alone can
/// say, the even one. A size below the smallest double is 0. @throws Error rounding_undecided
double certified_double(const RealFunction& value);

/// Sign of a real that is not zero.
/// @throws Error order_undecided
int certified_sign(const RealFunction& value);

/// @throws Error digits_out_of_range unless `digits` lies in 0 … limits::decimal_digits.
void check_digits(int digits);

} // namespace sectio
