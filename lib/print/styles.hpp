#pragma once
/// @file
/// Private to lib/print: sizes of type on paper.

#include <sectio/page/page.hpp>
#include <sectio/print/draw.hpp>
#include <sectio/print/typeset_pages.hpp>

#include <vector>

namespace sectio::page {

/// Below a block, in points.
inline constexpr double section_gap = 11;

struct Styles {
    TextStyle title{19, true}, heading{12, true}, label{10, false, true}, value{10.5, true};
    double least_title = 13;      ///< size that a long title may come down to
    double ruler = 1;             ///< times its usual size of type
    double following_table = 9.5; ///< of the tables after the first of a page
    /// Of the first table of a page, the largest that fits; where none does, the reading size.
    std::vector<double> stand{16, 15, 14, 13, 12, 11.5, 11, 10.5, 10, 9.5};
    std::vector<double> longer{12, 11, 10.5, 10,
                               9.5}; ///< the same for more rows than a stand shows
    /// Of a table of many like columns, where that brings them all beside one another.
    std::vector<double> tight{9, 8.5, 8};
    double comfortable = 10.5; ///< a larger type is no reason to cut a table into more blocks
    double stand_reading = 10.5, longer_reading = 9.5; ///< where a table takes several pages
    double words = 1;                                  ///< times the usual size of notes
    DrawingFit drawing;
    double least = 0; ///< below which nothing is made smaller to fit, but the head of a page

    TextStyle of(Role role) const;
};

/// What is usual, or with `large` what is read at a metre: nothing between the line at the head of
/// a page and the one at its foot is below 14 points.
Styles styles(bool large);

} // namespace sectio::page
