#pragma once
/// @file
/// Private to lib/page: sizes of type on paper.

#include <sectio/page/page.hpp>
#include <sectio/page/set_pages.hpp>

#include <vector>

namespace sectio::page {

struct Styles {
    TextStyle title{19, true}, heading{12, true}, label{10, false, true}, value{10.5, true};
    double ruler = 1;             ///< times its usual size of type
    double following_table = 9.5; ///< of the tables behind the first of a leaf
    /// Of the first table of a leaf, the largest that fits; where none does, the last but the
    /// reading size.
    std::vector<double> stand{16, 15, 14, 13, 12, 11.5, 11, 10.5, 10, 9.5};
    std::vector<double> longer{10, 9.5}; ///< the same for a table of more rows than a stand shows
    double stand_reading = 10.5, longer_reading = 9.5; ///< where a table takes several leaves
    double words = 1;                                  ///< times the usual size of notes

    TextStyle of(Role role) const;
};

/// What is usual, or with `large` what is read at a metre: nothing that a player looks up while
/// playing is below 14 points.
Styles styles(bool large);

} // namespace sectio::page
