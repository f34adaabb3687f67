#pragma once
/// @file
/// Commas within bounds as a page.

#include <sectio/comma/commas.hpp>
#include <sectio/comma/tempered_out.hpp>
#include <sectio/page/page.hpp>
#include <sectio/scale/catalogue.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace sectio {

/// What was asked for and what was found.
struct CommaList {
    CommaBounds bounds;
    std::string above, below;     ///< the bounds of the size as they were asked for
    std::size_t count = 0;        ///< of all within the bounds
    std::vector<Interval> commas; ///< those that are shown
    std::vector<Interval> basis;  ///< of all that vanish in CommaBounds::tempered_out_in
};

/// Each with its size, its factors and the names that the catalogue has for it.
page::Page comma_page(const CommaList& list, const Catalogue& catalogue = Catalogue::installed());

} // namespace sectio
