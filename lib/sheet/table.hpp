#pragma once
/// @file
/// The table of degrees as a reader sees it, and how a wide one is cut into blocks.

#include <sectio/sheet/sheet.hpp>

#include <string>
#include <vector>

namespace sectio {

enum class ColumnKind {
    key,    ///< number of the degree: repeated in every block
    words,  ///< may be broken into lines
    figure, ///< stands with its decimal point under the others
    note,   ///< note name in 12 equal steps
};

struct Column {
    std::string group; ///< a heading over this and its neighbours, or empty
    std::string head;
    ColumnKind kind = ColumnKind::figure;
    /// 0 for what every first block holds; columns of the same part above 0 stay together.
    std::size_t part = 0;
    bool strong = false; ///< what a player looks for first
};

struct Table {
    std::vector<Column> columns;
    std::vector<std::vector<std::string>> rows; ///< a cell for every column
};

/// The degrees: number, name, interval, cents, next, key and deviation, then step and error of each
/// division that is not the keys themselves. A column that would be empty is left out.
Table degree_table(const Sheet& sheet);
/// Largest and RMS error of each division.
Table summary_table(const Sheet& sheet);

/// Which columns stand side by side in one block.
using Block = std::vector<std::size_t>;

/// Where the columns of `block` that share the group of column `block[at]` end; a column without a
/// group stands alone.
std::size_t group_end(const Table& table, const Block& block, std::size_t at);

/// Cuts the columns into blocks that are at most `available` wide, each column i needing
/// `widths[i]` with its gap. The first block holds part 0 and as many parts as fit; every further
/// one repeats the key columns. A block holds at least one part, however narrow the page.
std::vector<Block> cut_into_blocks(const Table& table, const std::vector<double>& widths,
                                   double available);

/// Digits (with the point) that a figure has after its whole part: "701.955" has 4, "3" none.
std::size_t tail_length(const std::string& figure);

} // namespace sectio
