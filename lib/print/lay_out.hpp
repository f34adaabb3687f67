#pragma once
/// @file
/// Private to lib/print: a page laid out on sheets of paper.

#include <sectio/page/page.hpp>
#include <sectio/print/print.hpp>
#include <sectio/print/typeset_pages.hpp>

namespace sectio::page {

/// The blocks one below the other on as many pages as they need, each following one with the title
/// and the table's heads again, each numbered.
/// @throws Error too_fine_for_paper
TypesetDocument lay_out(const Page& page, const PrintOptions& options);

/// One block that is drawn, on a page of its own size, `width` points wide.
TypesetDocument set_ruler(const Ruler& ruler, double width);
TypesetDocument set_drawing(const Drawing& drawing, double width);

} // namespace sectio::page
