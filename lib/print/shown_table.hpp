#pragma once
/// @file
/// Private to lib/print: a table as a reader sees it, and how a wide one is cut into blocks.

#include <sectio/page/page.hpp>

#include <string>
#include <vector>

namespace sectio::page {

/// The columns that people see, with the texts of their cells.
struct ShownTable {
    std::vector<Column> columns;
    std::vector<std::vector<std::string>> rows; ///< a text for every column
};

/// A column that would be empty is left out.
ShownTable shown(const Table& table, const Digits& digits);

/// Which columns stand side by side in one block.
using ColumnBlock = std::vector<std::size_t>;

/// Where the columns of `block` that share the group of column `block[at]` end; a column without a
/// group stands alone.
std::size_t group_end(const ShownTable& table, const ColumnBlock& block, std::size_t at);

/// Cuts the columns into blocks that are at most `available` wide, each column i needing
/// `widths[i]` with its gap. The first block holds part 0 and as many parts as fit; every further
/// one repeats the key columns, and the column "Name" after the first where both leave room;
/// without a key the first words that have a heading and take at most half the width. Only a part
/// that is wider than a whole block is cut itself; a block holds at least one column of it.
std::vector<ColumnBlock> cut_into_blocks(const ShownTable& table, const std::vector<double>& widths,
                                         double available);

/// Digits (with the point) that a figure has after its whole part: "701.955" has 4, "3" none.
std::size_t tail_length(const std::string& figure);

} // namespace sectio::page
