#pragma once
/// @file
/// Private to lib/print: pieces of HTML that the sheet and its player share.

#include <string>

namespace sectio::page {

/// `<name attributes>content</name>`.
std::string element(const std::string& name, const std::string& attributes,
                    const std::string& content);

/// Escaped text with its accidentals from a font that draws them as tall as letters.
std::string with_accidentals(std::string text);

} // namespace sectio::page
