#pragma once
/// @file
/// Text in aligned columns, by the width that a terminal shows.

#include <string>
#include <string_view>
#include <vector>

namespace sectio::cli {

/// Columns of a terminal that `text` takes; combining marks take none. Source: Unicode UAX #11,
/// through the C library's wcwidth where the locale is UTF-8, else one for each character.
std::size_t shown_width(std::string_view text);

enum class Align { left, right };

/// Rows of cells as lines, each column as wide as its widest cell, two spaces between them. The
/// last column is not padded.
std::string aligned(const std::vector<std::vector<std::string>>& rows,
                    const std::vector<Align>& aligns, std::string_view indent = "  ");

/// `text` in lines of at most `width` columns, broken at spaces, `indent` before each.
std::string wrapped(std::string_view text, std::string_view indent, std::size_t width = 78);

} // namespace sectio::cli
