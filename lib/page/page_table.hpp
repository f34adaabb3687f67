#pragma once
/// @file
/// A table measured for a page: size of type, widths of columns, blocks.

#include <sectio/page/set_pages.hpp>
#include <sectio/page/shown_table.hpp>

#include <vector>

namespace sectio::page {

/// What one column needs, in points at a size of type of 1.
struct ColumnMeasure {
    double natural = 0; ///< the widest cell or head on one line
    double whole = 0;   ///< of figures, before the decimal point
    double tail = 0;    ///< of figures, from the decimal point on
};

/// How a table is set.
struct TablePlan {
    double size = 10;
    std::vector<double> widths; ///< of the columns in points, without gap
    std::vector<ColumnBlock> blocks;
    double gap = 0; ///< between columns
};

/// A table with the measures of its columns; plans and draws it.
class PageTable {
  public:
    PageTable(ShownTable table, Typesetter& type);

    const ShownTable& table() const { return table_; }
    /// True where people would see nothing of it.
    bool empty() const { return table_.rows.empty() || table_.columns.empty(); }
    /// The plan at `size` for a page `width` wide: all in one block if columns of words may be
    /// broken for it, else in several.
    TablePlan plan(double size, double width) const;
    /// Height of one line of cells at `size`, and of the heads.
    double row_height(double size) const;
    double head_height(double size) const;
    /// Height of the whole table by the measures; an estimate where words are broken.
    double height(const TablePlan& plan) const;

    /// Sets the heads of a block with their upper left corner at (x, y).
    void draw_head(const TablePlan& plan, const ColumnBlock& block, SetPage& page, double x,
                   double y);
    /// Sets a row; gives its height. With `page` null it is only measured.
    double draw_row(const TablePlan& plan, const ColumnBlock& block, std::size_t row, SetPage* page,
                    double x, double y);

  private:
    SetText cell(const TablePlan& plan, std::size_t column, const std::string& text);
    double cell_offset(const TablePlan& plan, std::size_t column, const std::string& text,
                       const SetText& set);
    void measure_column(std::size_t column);
    void widen_for_group(std::size_t begin, std::size_t end);
    SetText group_heading(const std::string& group, TextStyle style, double width);
    double tail_width(const std::string& figure) const;

    ShownTable table_;
    Typesetter& type_;
    std::vector<ColumnMeasure> measures_;
    double line_ = 0, ascent_ = 0, digit_ = 0, point_ = 0; ///< at a size of 1
};

/// Width of a block with its gaps.
double block_width(const TablePlan& plan, const ColumnBlock& block);

} // namespace sectio::page
