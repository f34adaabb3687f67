#pragma once
/// @file
/// Lengths on a string as exact real numbers.
///
/// A string of the vibrating length L that sounds an interval of frequency ratio r higher has been
/// stopped so that L/r of it vibrates: frequency is inverse to length at equal tension and mass.
/// Source: M. Mersenne, Harmonie universelle (Paris 1636), Traité des instruments, livre III, as
/// told by H. Fletcher and T. Rossing, The Physics of Musical Instruments (2nd ed., 1998), 2.1
/// (both from memory). What pressing a string down adds is in stretch.hpp.

#include <sectio/base/length.hpp>
#include <sectio/interval/real.hpp>

#include <optional>

namespace sectio {

/// The stretch of a string between two places, each named by the interval that sounds where the
/// string is stopped there: length · (1/r_near − 1/r_far), in mm.
class StopDistance {
  public:
    /// `length` is that of the open string, above 0.
    static StopDistance between(const Length& length, Interval near, Interval far);
    /// From the nut, where the open string ends, to the place that sounds `interval`.
    static StopDistance from_nut(const Length& length, const Interval& interval) {
        return between(length, Interval(), interval);
    }
    /// From the place that sounds `interval` to the bridge.
    static StopDistance to_bridge(const Length& length, const Interval& interval);

    /// The length, if it is a fraction of a millimetre with terms within limits::term_bits.
    std::optional<Length> exact() const;
    /// The length in mm.
    Real millimetres() const;
    /// In mm for drawing, where a double's accuracy is enough: within 1e-12 of the length.
    double estimate() const;

  private:
    StopDistance(Length length, Interval near, std::optional<Interval> far)
        : length_(std::move(length)), near_(std::move(near)), far_(std::move(far)) {}
    Enclosure enclosure(long bits) const;

    Length length_;
    Interval near_;
    std::optional<Interval> far_; ///< none at the bridge
};

/// The interval that a string of `length` sounds above its open pitch where it is stopped
/// `from_nut`, exactly: length / (length - from_nut). A place behind the nut gives a falling one.
/// @throws Error unfit_argument unless from_nut < length, term_too_large
Interval interval_at(const Length& length, const Length& from_nut);

/// For drawing and physics: correct to a double's last digits.
double in_mm(const Length& length);

/// How far a saddle stands behind the end of a string's nominal `length`, before it where negative.
/// @throws Error compensation_too_far beyond the limits::compensation_part th part of the length
void check_compensation(const Length& compensation, const Length& length);

} // namespace sectio
