#pragma once
/// @file
/// How figures and names are written on a page.

#include <sectio/interval/interval.hpp>
#include <sectio/interval/pitch.hpp>

#include <optional>
#include <string>
#include <string_view>

namespace sectio {

/// "-3.9" as "−3.9", with the true minus sign U+2212.
std::string true_minus(std::string_view number);
/// Size in cents, correctly rounded, with true minus.
std::string cents_text(const Interval& interval, int digits);
/// The same with a plus sign before what is above zero after rounding: "+3.9", "−3.9", "0.0".
std::string signed_cents(const Interval& interval, int digits);

/// Digits after the point that a figure of this uncertainty has, at most `digits`: down to the
/// place of the uncertainty's first significant digit, as JCGM 100:2008 (GUM) 7.2.6 advises.
int borne_digits(const std::optional<Interval>& uncertainty, int digits);
/// The same for an uncertainty in another unit than cents.
int borne_digits(const Rational& uncertainty, int digits);
/// The uncertainty in cents, rounded up, never down: a stated margin must hold (GUM 7.2.6).
std::string margin_cents(const Interval& uncertainty, int digits);
/// The same for an uncertainty in another unit than cents.
std::string margin_text(const Rational& uncertainty, int digits);
/// "+3.9" for "3.9", with true minus; zero has no sign.
std::string with_sign(const std::string& number);

/// "= 440 Hz" where that is the exact frequency, else "≈ 293.66 Hz", rounded to 0.01 Hz.
std::string hertz_text(const Pitch& pitch);

/// An expression for a line of the page: runs of digits longer than a line are cut in the middle
/// with "…", and so is what is still too long. The CSV has it whole.
std::string shortened(std::string_view expression);

/// Valid UTF-8 on one line: control characters become spaces, invalid bytes the replacement sign.
std::string one_line(std::string_view text);

/// Columns that a terminal needs for `text`: 0 for combining marks, 2 for wide letters (UAX #11).
std::size_t display_width(std::string_view text);

} // namespace sectio
