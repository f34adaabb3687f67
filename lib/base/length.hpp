#pragma once
/// @file
/// Lengths, exact in millimetres, as rulers and drawings give them.

#include <sectio/base/argument.hpp>
#include <sectio/base/error.hpp>
#include <sectio/base/measured.hpp>
#include <sectio/base/number.hpp>

#include <compare>
#include <string>
#include <string_view>

namespace sectio {

/// Digits after the point of a millimetre that a workshop is shown: finer than any rule or saw.
inline constexpr int bench_digits = 2;

/// A length of any sign. A number is no length: it needs its unit.
class Length {
  public:
    /// 0 mm.
    Length() = default;
    static Length millimetres(const Rational& mm) { return Length(mm); }
    /// One inch is 25.4 mm exactly. Source: BIPM, The International System of Units (9th ed.,
    /// 2019), and NIST SP 811 (2008), B.8 (from memory).
    static Length inches(const Rational& inches) { return Length(inches * Rational(127, 5)); }

    const Rational& millimetres() const { return mm_; }
    /// In mm with `digits` after the point, correctly rounded (half to even where exactly half).
    std::string decimal(int digits) const { return sectio::decimal(mm_, digits); }
    /// As it is read back: "57.4 mm", "355/3 mm".
    std::string text() const;

    friend Length operator+(const Length& a, const Length& b) { return Length(a.mm_ + b.mm_); }
    friend Length operator-(const Length& a, const Length& b) { return Length(a.mm_ - b.mm_); }
    friend Length operator-(const Length& a) { return Length(-a.mm_); }
    friend Length operator*(const Length& a, const Rational& times) {
        return Length(a.mm_ * times);
    }
    /// @throws Error unfit_argument where `b` is 0
    friend Rational operator/(const Length& a, const Length& b) {
        check_argument(b.mm_.numerator() != 0, "the length to divide by", "other than 0");
        return a.mm_ / b.mm_;
    }
    Length& operator+=(const Length& b) { return *this = *this + b; }
    Length& operator-=(const Length& b) { return *this = *this - b; }
    friend bool operator==(const Length& a, const Length& b) = default;
    friend std::strong_ordering operator<=>(const Length& a, const Length& b) {
        return a.mm_ < b.mm_   ? std::strong_ordering::less
               : b.mm_ < a.mm_ ? std::strong_ordering::greater
                               : std::strong_ordering::equal;
    }

  private:
    explicit Length(Rational mm) : mm_(std::move(mm)) {}
    Rational mm_{0};
};

/// A length as a ruler gives it.
using MeasuredLength = Measured<Length>;

/// Reads `612 mm`, `61.2cm`, `0.612 m`, `24.5 in`, `24 1/2 inch`, `24-1/2"`, `3/8″`.
/// @throws Error expected_length, length_without_unit, unknown_length_unit, length_decimal_comma,
/// length_too_long, text_after_length, with place
Length parse_length(std::string_view text, const Place& place = {});

/// Reads a length with a half width if wanted: `57.4 mm ± 0.5 mm`, `57.4 ± 0.5 mm`, `3/8" +-
/// 1/64"`. A number without unit before ± takes the unit after it, as in (57.4 ± 0.5) mm. Source
/// of the notation: JCGM 100:2008, 7.2.2. Its basis is the ruler.
/// @throws Error the same, and half_width_not_positive
MeasuredLength parse_measured_length(std::string_view text, const Place& place = {});

} // namespace sectio
