#pragma once
/// @file
/// Private to lib/print: SVG documents inside one document of HTML.

#include <cstddef>
#include <string>

namespace sectio::page {

/// The `svg` element of a document written by cairo, its names told apart from those of other
/// drawings by `number`, the drawing's own on the page.
std::string inline_svg(const std::string& svg, std::size_t number);

} // namespace sectio::page
