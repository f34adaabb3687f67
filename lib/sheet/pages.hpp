#pragma once
/// @file
/// The sheet laid out on pages of paper.

#include <sectio/sheet/drawing.hpp>
#include <sectio/page/paper.hpp>
#include <sectio/sheet/sheet.hpp>

namespace sectio {

/// Title, facts, ruler, table, summary and notes on as many pages as they need, each following page
/// with the title and the table's heads again, each numbered.
/// @throws Error too_fine_for_paper
Drawing lay_out(const Sheet& sheet, const Paper& paper);

/// The ruler alone, on a page of its own size.
Drawing ruler_drawing(const Sheet& sheet, double width);

} // namespace sectio
