#pragma once
/// @file
/// Private to lib/print: no leaf with a few lines alone where another break avoids it.

#include <sectio/page/page.hpp>
#include <sectio/print/set_pages.hpp>

#include <cstddef>
#include <functional>
#include <set>
#include <vector>

namespace sectio::page {

/// A page on leaves.
struct LaidLeaves {
    SetDocument document;
    std::vector<std::size_t> begun; ///< of each block: the leaf, from 0, that it was reached on
    std::vector<double> filled;     ///< of each leaf: the share of its height
};

/// Lays out with a new leaf before each of these blocks.
using LayOut = std::function<LaidLeaves(const std::set<std::size_t>& breaks)>;

/// A leaf that would bear less than a quarter takes whole blocks of its part from the one before,
/// as few as fill it, where that leaves no other so empty and takes no more leaves.
SetDocument with_fuller_leaves(const Page& page, const LayOut& lay_out);

} // namespace sectio::page
