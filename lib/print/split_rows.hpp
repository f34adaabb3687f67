#pragma once
/// @file
/// Private to lib/print: which rows of a table stand in which column of which page.

#include <cstddef>
#include <vector>

namespace sectio::page {

struct RowRange {
    std::size_t begin, end;
};

/// The rows, of these heights, in turn: range i stands in column i % `across` of page i / `across`.
/// Columns hold `first_room` on the first page and `room` on the others, and at least one row,
/// however high. The columns of the last page are levelled; where it would be nearly empty with one
/// column, it shares the rows of the page before.
std::vector<RowRange> split_rows(const std::vector<double>& heights, std::size_t across,
                                 double first_room, double room);

/// Height of the rows of a range.
double height_of(const RowRange& range, const std::vector<double>& heights);

} // namespace sectio::page
