#pragma once
/// @file
/// Private to lib/sheet: notes on staves as drawings.

#include <sectio/page/page.hpp>
#include <sectio/score/staff_notes.hpp>

#include <vector>

namespace sectio {

/// The scale on as many staves as it needs, each with its clef, the deviation in cents over each
/// note, its number and name below. `large`: narrow, with few notes a staff, to be made larger on
/// the page (no label has less than 8 points).
std::vector<page::Drawing> staff_drawings(const score::StaffScale& staff, bool large = false);

/// The signs that occur with what they mean, in one line; nothing where they are plain.
std::optional<page::Drawing> sign_legend(const score::StaffScale& staff, bool large = false);

} // namespace sectio
