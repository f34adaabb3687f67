#pragma once
/// @file
/// Private to lib/sheet: clefs, notes and accidentals drawn from the glyphs of Noto Music and,
/// where it has none, from strokes. Lengths are staff spaces; an em of the font is four of them.

#include <sectio/page/page.hpp>
#include <sectio/score/signs.hpp>
#include <sectio/score/staff_notes.hpp>

namespace sectio {

/// Millimetres between two lines of the staff.
inline constexpr double staff_space = 1.9;

/// The drawing with a place to draw at; y is that of the line or space that the sign stands on.
class StaffPen {
  public:
    explicit StaffPen(page::Drawing& drawing) : drawing_(drawing) {}

    void clef(score::Clef clef, double left, double middle_line);
    /// An open notehead with its middle at (x, y).
    void notehead(double x, double y);
    /// The sign with its right edge at `right`. @returns its width in millimetres
    double sign(score::Sign sign, double right, double y);
    void line(double x1, double y1, double x2, double y2, double width);

  private:
    void glyph(std::string_view text, double x, double baseline, bool mirrored = false);
    double sharp(int stems, int bars, double right, double y);
    double flat(double right, double y, bool mirrored, int slashes);
    double koron(double right, double y);
    double sori(double right, double y);
    double numbered(bool up, std::string_view number, double right, double y);

    page::Drawing& drawing_;
};

} // namespace sectio
