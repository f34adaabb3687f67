#pragma once
/// @file
/// An identification as a page.

#include <sectio/identify/identify.hpp>
#include <sectio/page/page.hpp>

namespace sectio {

page::Page identify_page(const Identification& answer);

} // namespace sectio
