#pragma once
/// @file
/// Two or more scales and systems against each other.

#include <sectio/page/page.hpp>
#include <sectio/scale/difference.hpp>

#include <vector>

namespace sectio {

/// Each with every one behind it, from the same tonic and moved to where they fit best. Two are
/// shown degree by degree.
/// @throws Error rounding_undecided
page::Page compare_page(const std::vector<Scale>& scales);

} // namespace sectio
