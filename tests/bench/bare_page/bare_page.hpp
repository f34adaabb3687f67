#pragma once
/// @file
/// The baseline: a page of words drawn by cairo and pango as their manuals show it.

#include <string>
#include <string_view>
#include <vector>

namespace bare {

/// The runs without spaces in `text`.
std::vector<std::string> words_of(std::string_view text);

/// A PDF page of A4 with the words in rows: every third one bold, every fifth one italic, as many
/// fonts as a sheet has.
std::string page(const std::vector<std::string>& words);

} // namespace bare
