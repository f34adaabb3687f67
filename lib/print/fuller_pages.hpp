#pragma once
/// @file
/// Private to lib/print: no page with a few lines alone where another break avoids it.

#include <sectio/page/page.hpp>
#include <sectio/print/typeset_pages.hpp>

#include <cstddef>
#include <functional>
#include <set>
#include <vector>

namespace sectio::page {

/// A document as it is laid out.
struct LaidPages {
    TypesetDocument document;
    std::vector<std::size_t> begun; ///< of each block: the page, from 0, that it was reached on
    std::vector<double> filled;     ///< of each page: the share of its height
};

/// Lays out with a new page before each of these blocks.
using LayOut = std::function<LaidPages(const std::set<std::size_t>& breaks)>;

/// A page that would hold less than a quarter takes whole blocks of its part from the one before,
/// as few as fill it, where that leaves no other so empty and takes no more pages.
TypesetDocument with_fuller_pages(const Page& page, const LayOut& lay_out);

} // namespace sectio::page
