#pragma once
/// @file
/// Half widths of figures that rest on several measured ones.
///
/// A half width a says that the value lies within ± a, anywhere with equal probability; its
/// standard uncertainty is a/√3. Independent ones add up in quadrature to the combined standard
/// uncertainty u, and 2u covers the value about 95 times in 100. Source: JCGM 100:2008
/// (GUM), 4.3.7, 5.1.2 and 6.3.3.

#include <sectio/base/measured.hpp>
#include <sectio/interval/interval.hpp>

#include <optional>
#include <vector>

namespace sectio {

/// One cents figure's half width from those that each cause leaves to it, in cents, all from 0:
/// 2u, but never more than all of them together can do; rounded up to a ten-thousandth of a cent.
/// So a single cause keeps its own half width, and at least 95 of 100 values lie within.
/// Nothing where all are 0: such a figure is exact.
std::optional<Interval> combined_half_width(const std::vector<Rational>& causes);

/// Half width of what lies between two figures whose errors are independent: in quadrature where
/// both rest on statistics (a recording, a scatter), whose half widths are 1.96 standard
/// uncertainties or alike; else as combined_half_width() does, which holds for both kinds. Nothing
/// for exact figures.
std::optional<Interval> half_width_between(const Measured<Interval>& a,
                                           const Measured<Interval>& b);

/// What a measurement that was printed rests on, by the word for it; `stated` for any other.
Basis basis_of(std::string_view name);

/// Cents that a length's relative change makes, d ln r → 1200/ln 2, rounded up in the last of 16
/// digits: for margins, which must hold.
Rational cents_of_relative(const Rational& relative);

/// Factor t for ± t·s/√n to cover the mean of normal readings 95 times in 100, `freedom` >= 1 being
/// the degrees of freedom of s. Between the tabled ones the smaller, which is the wider. @throws
/// Error unfit_argument for 0 Source: JCGM 100:2008, table G.2.
Rational coverage_factor(std::size_t freedom);

/// The square root of `square` >= 0 in ten-thousandths, rounded up.
Rational root_up(const Rational& square);

} // namespace sectio
