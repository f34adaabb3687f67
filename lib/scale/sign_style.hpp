#pragma once
/// @file
/// The signs that a scale is written with on a staff.

#include <sectio/base/error.hpp>

#include <optional>
#include <string_view>

namespace sectio {

enum class SignStyle {
    plain,   ///< sharps and flats: the nearest of 12 equal steps from A4
    quarter, ///< quarter tones too: the nearest of 24 equal steps from A4
    comma,   ///< the signs of Turkish theory: the nearest of 53 equal steps from the tonic
    persian  ///< koron and sori, half a flat and half a sharp: the nearest of 24 from A4
};

/// "plain", "quarter", "comma", "persian".
std::string_view text(SignStyle style);
/// The same back, or nothing for "auto". @throws Error unknown_sign_style
std::optional<SignStyle> parse_sign_style(std::string_view text, const Place& place = {});

} // namespace sectio
