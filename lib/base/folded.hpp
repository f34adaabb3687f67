#pragma once
/// @file
/// Names compared as readers compare them.

#include <string>
#include <string_view>

namespace sectio {

/// Lower case without diacritics, hyphens as spaces: "Hüseynî" and "huseyni" are one. Uses
/// Unicode's compatibility decomposition (UAX #15); the dotless ı counts as i,
/// Persian letters as the Arabic ones that they are forms of; vowel signs of Indic scripts stay.
std::string folded(std::string_view name);

} // namespace sectio
