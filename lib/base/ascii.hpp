#pragma once
/// @file
/// Text for those who know ASCII alone.

#include <string>
#include <string_view>

namespace sectio {

/// `text` in letters of ASCII, 0x20 to 0x7E: without diacritics ("Hüseynî" is "Huseyni"), the few
/// letters that Unicode does not decompose by their usual substitutes, music signs as # and b; a
/// question mark for each character that has none.
std::string ascii_letters(std::string_view text);

} // namespace sectio
