#pragma once
/// @file
/// An identification as a page.

#include <sectio/identify/identify.hpp>
#include <sectio/page/page.hpp>

namespace sectio {

page::Page identify_page(const Identification& answer);

/// A probability, 0 to 1, as a percentage with one decimal.
page::Cell percent(double probability);

} // namespace sectio
