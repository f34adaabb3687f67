#pragma once
/// @file
/// Two or more scales and systems against each other.

#include <sectio/page/page.hpp>
#include <sectio/scale/difference.hpp>

#include <vector>

namespace sectio {

/// Each with every one after it, from the same tonic and moved to where they fit best, and all of
/// them on lines to scale. Two are shown degree by degree, more as matrices of their distances.
/// With options that name a tonic or a reference the degrees of the first have keys and deviations.
/// @throws Error nothing_to_compare_with for no scale, rounding_undecided, and those of tuned()
page::Page compare_page(const std::vector<Scale>& scales, const TuningOptions& options = {});

} // namespace sectio
