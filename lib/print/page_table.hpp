#pragma once
/// @file
/// Private to lib/print: a table measured for a page, its size of type, widths of columns, blocks.

#include <sectio/print/shown_table.hpp>
#include <sectio/print/typeset_pages.hpp>

#include <vector>

namespace sectio::page {

/// What one column needs, in points at a size of type of 1.
struct ColumnMeasure {
    double natural = 0;      ///< the widest cell or head on one line
    double whole = 0;        ///< of figures, before the decimal point
    double tail = 0;         ///< of figures, from the decimal point on
    double longest_word = 0; ///< of words, which are broken between words
};

/// How a table is set.
struct TablePlan {
    double size = 10;
    std::vector<double> widths; ///< of the columns in points, without gap
    std::vector<ColumnBlock> blocks;
    double gap = 0;         ///< between columns
    double padding = 0.3;   ///< between rows, of the size of type
    std::size_t across = 1; ///< times that rows stand beside one another on a page
};

/// A table with the measures of its columns; plans and draws it.
class PageTable {
  public:
    /// No heading is made smaller than `least` points.
    PageTable(ShownTable table, Typesetter& type, double least = 0);

    const ShownTable& table() const { return table_; }
    /// True where people would see nothing of it.
    bool empty() const { return table_.rows.empty() || table_.columns.empty(); }
    /// The plan at `size` for a page `width` wide: all in one block if columns of words may be
    /// broken for it, else in several.
    TablePlan plan(double size, double width);
    /// Height of a block's heads, and of a row.
    double head_height(const TablePlan& plan, const ColumnBlock& block);
    double row_height(const TablePlan& plan, const ColumnBlock& block, std::size_t row);

    /// Sets the heads of a block with their upper left corner at (x, y).
    void draw_head(const TablePlan& plan, const ColumnBlock& block, TypesetPage& page, double x,
                   double y);
    void draw_row(const TablePlan& plan, const ColumnBlock& block, std::size_t row,
                  TypesetPage& page, double x, double y);

  private:
    struct Height {
        double ascent, descent;
    };
    Height height_of(const TablePlan& plan, const ColumnBlock& block, std::size_t row);
    TypesetText cell(const TablePlan& plan, std::size_t column, const std::string& text);
    double cell_offset(const TablePlan& plan, std::size_t column, const std::string& text,
                       const TypesetText& set);
    void measure_column(std::size_t column);
    void widen_for_group(std::size_t begin, std::size_t end);
    TextStyle head_style(double size) const;
    /// A heading over columns `width` wide: its style, made smaller to three quarters before it is
    /// broken, and its lines.
    TextStyle group_style(const std::string& group, double size, double width);
    std::vector<std::string> group_lines(const std::string& group, double size, double width);
    void draw_group(const TablePlan& plan, const std::string& group, double width,
                    TypesetPage& page, double x, double y);
    std::size_t most_group_lines(const TablePlan& plan, const ColumnBlock& block);
    double head_width(const std::string& head); ///< at a size of type of 1
    double tail_width(const std::string& figure) const;

    ShownTable table_;
    Typesetter& type_;
    double least_;
    std::vector<ColumnMeasure> measures_;
    double line_ = 0, ascent_ = 0, digit_ = 0, point_ = 0; ///< at a size of 1
};

/// Width of a block with its gaps.
double block_width(const TablePlan& plan, const ColumnBlock& block);

/// Widths that add up to `room`, each cut at a common level but not below `least`; all natural
/// where they fit, all at their least where that is too much.
std::vector<double> levelled(const std::vector<double>& naturals, const std::vector<double>& least,
                             double room);

} // namespace sectio::page
