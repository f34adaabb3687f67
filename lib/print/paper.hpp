#pragma once
/// @file
/// Paper, in PostScript points of 1/72 inch.

#include <sectio/base/error.hpp>

#include <string_view>

namespace sectio {

constexpr double points_of_mm(double mm) {
    return mm * 72 / 25.4;
}

/// A sheet of paper, with the margins that stay white.
struct Paper {
    double width;
    double height;
    double left = points_of_mm(24); ///< holes are punched here
    double right = points_of_mm(14);
    double top = points_of_mm(15);
    double bottom = points_of_mm(15);

    double text_width() const { return width - left - right; }
};

/// ISO 216 A4, 210 mm x 297 mm.
inline constexpr Paper a4_paper{points_of_mm(210), points_of_mm(297)};
/// A4 lying, for the music stand, with room to take it in the hand at either side.
inline constexpr Paper card_paper{points_of_mm(297), points_of_mm(210), points_of_mm(16),
                                  points_of_mm(16),  points_of_mm(13),  points_of_mm(12)};
/// ANSI/ASME Y14.1 size A, 8.5 in x 11 in.
inline constexpr Paper letter_paper{8.5 * 72, 11.0 * 72};

/// "a4", "letter" or "card", in any case.
/// @throws Error unknown_paper
Paper parse_paper(std::string_view text, const Place& place = {});

} // namespace sectio
