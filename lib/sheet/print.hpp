#pragma once
/// @file
/// A sheet in each of its formats. All return the bytes of a whole file; write_whole() of
/// <sectio/base/file.hpp> puts them on disk.

#include <sectio/page/paper.hpp>
#include <sectio/sheet/sheet.hpp>

#include <string>

namespace sectio {

/// Readable text, UTF-8. Columns align where letters have the widths of UAX #11; a table wider than
/// 100 columns is cut into blocks, unless its names alone are wider.
std::string print_text(const Sheet& sheet);

/// One record a degree after a header record (RFC 4180: CRLF, quotes doubled), UTF-8. Numbers are
/// plain ASCII without plus sign, note names ASCII (F#4); intervals are written as the author did.
std::string print_csv(const Sheet& sheet);

/// One HTML file without any other beside it, also well-formed XML, with rules for printing on any
/// paper. The ruler is drawn in it as SVG.
/// @throws Error drawing_failed
std::string print_html(const Sheet& sheet);

/// Pages of `paper` with the fonts embedded. Equal sheets with a date give equal bytes.
/// @throws Error drawing_failed
std::string print_pdf(const Sheet& sheet, const Paper& paper = a4_paper);

/// The same pages as one drawing, below one another. Letters are outlines.
/// @throws Error drawing_failed
std::string print_svg(const Sheet& sheet, const Paper& paper = a4_paper);

} // namespace sectio
