#pragma once
/// @file
/// Text for XML and HTML, which rooms that write either share.

#include <string>
#include <string_view>

namespace sectio {

/// `text` as content or quoted value of a tag: & < > and " as entities (XML 1.0, 2.4),
/// and U+FFFD for what is no character of XML or no UTF-8.
std::string escaped(std::string_view text);

} // namespace sectio
