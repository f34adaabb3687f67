#pragma once
/// @file
/// One exact real number, whatever it is made of: cents, hertz, beats, millimetres, errors. It is
/// kept as the number itself and rounded only where it is printed or counted with.

#include <sectio/interval/enclosure.hpp>
#include <sectio/interval/pitch.hpp>

namespace sectio {

class Real {
  public:
    Real(const Rational& value); // every fraction is a real number
    /// Precondition: no exact half at any digit, as nothing irrational is.
    static Real enclosed(RealFunction irrational);
    /// The square root of `square` >= 0. @throws Error unfit_argument
    static Real root_of(const Rational& square);
    /// `scaled` gives the number times 10^digits, rounded to the nearest whole number.
    static Real scaled_by(std::function<Integer(int digits)> scaled);

    /// With `digits` after the point, correctly rounded: as text, and as a fraction.
    /// @throws Error digits_out_of_range, rounding_undecided
    std::string decimal(int digits) const;
    std::string operator()(int digits) const { return decimal(digits); } ///< as pages ask for it
    Rational rounded(int digits) const;
    /// The number times 10^digits, rounded to the nearest whole number.
    Integer scaled(int digits) const;
    /// A double within one unit of its last place, for sorting, drawing and sound; 0 below the
    /// smallest. @throws Error rounding_undecided
    double estimate() const;

  private:
    explicit Real(std::function<Integer(int)> scaled) : scaled_(std::move(scaled)) {}
    std::function<Integer(int digits)> scaled_;
};

/// Its size in cents.
Real size_in_cents(const Interval& interval);
/// Its frequency ratio. Precondition for rounding: within limits::term_bits octaves.
Real frequency_ratio(const Interval& interval);
/// Its frequency in Hz.
inline Real frequency(const Pitch& pitch) {
    return frequency_ratio(pitch.above_hertz());
}

/// QuarterNotes per second, how often two tones that sound together swell and fade: the distance
/// between the `m`-th partial of `a` and the `n`-th of `b`; 1 is the fundamental. Not negative.
///
/// Two tones near to a simple ratio m:n beat where the m-th partial of the lower meets the n-th of
/// the upper. Source: H. von Helmholtz, Die Lehre von den Tonempfindungen (1863), chapters 8 and 10
/// (from memory). Precondition: m and n at least 1.
/// @throws Error pitch_out_of_range
Real beats_per_second(const Pitch& a, const Pitch& b, const Integer& m = 1, const Integer& n = 1);

/// How far `half_width` moves a pitch upwards, in Hz: rounded up at the twelfth digit, since it
/// only says what is known.
Rational half_width_in_hertz(const Pitch& pitch, const Interval& half_width);

} // namespace sectio
