#pragma once
/// @file
/// Private to lib/print: a table on pages: at which size, in how many columns, how it goes on.

#include <sectio/print/page_pen.hpp>
#include <sectio/print/page_table.hpp>
#include <sectio/print/split_rows.hpp>
#include <sectio/print/styles.hpp>

#include <optional>
#include <vector>

namespace sectio::page {

class LaidTable {
  public:
    /// With no type above `largest` where it is the first of its page.
    LaidTable(ShownTable table, PagePen& pen, const Styles& styles, double largest);

    bool empty() const { return table_.empty(); }
    /// Height on a page that holds all of it.
    double height(const TablePlan& plan);
    /// Of its heads and first rows, which stay together.
    double least_height(const TablePlan& plan);

    /// As it stands after others.
    const TablePlan& following();
    /// As it stands first, the largest and the largest that is at most `height` high.
    const TablePlan& preferred() { return first_plans().front(); }
    /// The rows stand closer where that alone makes it fit.
    std::optional<TablePlan> fitting(double height);
    /// In one column at most `width` wide and `height` high, the largest.
    std::optional<TablePlan> column(double width, double height);
    /// Height at a type that is hardly smaller than the largest.
    double comfortable_height();
    /// On pages, the first of which has `room`: a last one that would be nearly empty is avoided
    /// by rows that stand closer.
    TablePlan for_reading(double room);

    /// Draws it where the pen stands, on as many pages as it takes.
    void draw(const TablePlan& plan);

  private:
    const std::vector<TablePlan>& first_plans();
    void add_plans(std::vector<TablePlan>& plans, double size);
    void add_tight_plans();
    bool is_long() const;
    bool has_many_parts() const;
    std::vector<double> heights(const TablePlan& plan, const ColumnBlock& block);
    std::vector<RowRange> ranges(const TablePlan& plan, const ColumnBlock& block, double room);
    std::size_t pages(const TablePlan& plan, double room);
    void draw(const TablePlan& plan, const ColumnBlock& block);
    double draw(const TablePlan& plan, const ColumnBlock& block, const RowRange& rows, double x);

    PagePen& pen_;
    const Styles& styles_;
    double largest_;
    PageTable table_;
    std::vector<TablePlan> following_, first_;
};

} // namespace sectio::page
