#pragma once
/// @file
/// A plan of frets as drawings: a template at 1:1 to lay on the work, and the chart of finger
/// places.

#include <sectio/instrument/fret_plan.hpp>
#include <sectio/instrument/neck_shape.hpp>
#include <sectio/page/page.hpp>

#include <string>
#include <vector>

namespace sectio {

/// Where each part of a template begins and ends, in mm from the nut along the neck. Neighbours
/// share `overlap`.
struct TemplatePart {
    double begin = 0, end = 0;
};

/// The longest neck that is drawn, in mm.
inline constexpr double longest_neck_mm = 200'000;

/// Parts that cover a string of `length` mm with a margin before nut and behind bridge, each at
/// most as long as a sheet of A4 or Letter holds. @throws Error unfit_argument beyond
/// longest_neck_mm
std::vector<TemplatePart> template_parts(double length);

/// mm that neighbouring parts share.
inline constexpr double template_overlap = 20;

/// The template of one board, one drawing of true size a part: nut, frets, bridge and, where it is
/// compensated, saddle as lines across the strings; the frets' numbers and degrees beside them; a
/// check line of 100 mm; a line at both ends of what neighbours share; the caution. Across the neck
/// it is true where `neck` says how the strings lie.
std::vector<page::Drawing> template_drawings(const FretPlan& plan, const Fretboard& board,
                                             const std::optional<NeckShape>& neck = {});

/// The neck to scale, all strings from their nut to their bridge: each degree of the scale on each
/// string up to `up_to` above its open pitch, where it is fretted, and the planned frets.
/// `large`: names of 14 points.
page::Drawing finger_chart(const FretPlan& plan, const Interval& up_to, bool large = false);

/// What stands on every template.
inline constexpr const char* template_caution =
    "Cut no slot before the 100 mm line has been checked with a steel ruler on every page: print "
    "at 100 %, without fitting to the page.";

} // namespace sectio
