#pragma once
/// @file
/// Names compared as readers compare them.

#include <string>
#include <string_view>

namespace sectio {

/// Lower case without diacritics, hyphens as spaces: "Hüseynî" and "huseyni" are one. Uses
/// Unicode's compatibility decomposition (UAX #15); the dotless ı counts as i.
std::string folded(std::string_view name);

} // namespace sectio
