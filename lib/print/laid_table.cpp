#include <sectio/print/laid_table.hpp>

#include <algorithm>
#include <array>
#include <limits>

namespace sectio::page {

namespace {

constexpr double rule_grey = 0.65;
/// Between rows that stand beside one another.
constexpr double gutter = 24;
constexpr std::size_t most_across = 3;
/// Up to so many rows the type stays large and one column has them; a longer table takes more.
constexpr std::size_t stand_rows = 25;
/// A table of at least so many like parts is a matrix.
constexpr std::size_t many_parts = 8;
/// Between rows, of the size of type, the usual first; closer ones save a page.
constexpr std::array paddings{TablePlan().padding, 0.23, 0.17};

} // namespace

LaidTable::LaidTable(ShownTable table, PagePen& pen, const Styles& styles, double largest)
    : pen_(pen), styles_(styles), largest_(largest),
      table_(std::move(table), pen.type(), styles.least) {}

bool LaidTable::is_long() const {
    return table_.table().rows.size() > stand_rows;
}

bool LaidTable::has_many_parts() const {
    const auto& columns = table_.table().columns;
    return std::any_of(columns.begin(), columns.end(),
                       [](const Column& c) { return c.part >= many_parts; });
}

std::vector<double> LaidTable::heights(const TablePlan& plan, const ColumnBlock& block) {
    std::vector<double> all;
    for (std::size_t row = 0; row < table_.table().rows.size(); ++row)
        all.push_back(table_.row_height(plan, block, row));
    return all;
}

std::vector<RowRange> LaidTable::ranges(const TablePlan& plan, const ColumnBlock& block,
                                        double room) {
    const double head = table_.head_height(plan, block);
    return split_rows(heights(plan, block), plan.across, room - head, pen_.whole_room() - head);
}

double LaidTable::height(const TablePlan& plan) {
    constexpr double endless = std::numeric_limits<double>::max();
    double sum = section_gap * static_cast<double>(plan.blocks.size());
    for (const ColumnBlock& block : plan.blocks) {
        const auto rows = heights(plan, block);
        double most = 0;
        for (const RowRange& range : split_rows(rows, plan.across, endless, endless))
            most = std::max(most, height_of(range, rows));
        sum += table_.head_height(plan, block) + most;
    }
    return sum;
}

double LaidTable::least_height(const TablePlan& plan) {
    const std::size_t together = std::min<std::size_t>(2, table_.table().rows.size());
    double sum = table_.head_height(plan, plan.blocks.front());
    for (std::size_t row = 0; row < together; ++row)
        sum += table_.row_height(plan, plan.blocks.front(), row);
    return sum;
}

// Which type, and how many columns of rows.

/// With the rows in one column, and, of a long table, in as many as there is width for.
void LaidTable::add_plans(std::vector<TablePlan>& plans, double size) {
    plans.push_back(table_.plan(size, pen_.width()));
    if (!is_long() || plans.back().blocks.size() > 1)
        return;
    for (std::size_t across = 2; across <= most_across; ++across) {
        const double count = static_cast<double>(across);
        const double width = (pen_.width() - (count - 1) * gutter) / count;
        TablePlan plan = table_.plan(size, width);
        if (plan.blocks.size() > 1 || block_width(plan, plan.blocks.front()) > width + 0.1)
            return;
        plan.across = across;
        plans.push_back(std::move(plan));
    }
}

const TablePlan& LaidTable::following() {
    if (following_.empty()) {
        add_plans(following_, styles_.following_table);
        std::stable_sort(following_.begin(), following_.end(), [&](const auto& a, const auto& b) {
            return pages(a, pen_.whole_room()) < pages(b, pen_.whole_room());
        });
    }
    return following_.front();
}

/// From the largest type down. A larger one that needs more blocks than a comfortable one, or of
/// many like columns than any, is left out; many like columns are set tight where they then stand
/// beside one another.
const std::vector<TablePlan>& LaidTable::first_plans() {
    if (!first_.empty())
        return first_;
    std::size_t fewest = std::numeric_limits<std::size_t>::max();
    for (const double size : is_long() ? styles_.longer : styles_.stand) {
        if (styles_.least == 0 && size > largest_)
            continue;
        add_plans(first_, size);
        if (size >= styles_.comfortable || has_many_parts())
            fewest = std::min(fewest, first_.back().blocks.size());
    }
    std::erase_if(first_, [&](const TablePlan& p) { return p.blocks.size() > fewest; });
    add_tight_plans();
    if (has_many_parts() && first_.back().blocks.size() > 1)
        for (const double size : styles_.tight)
            if (TablePlan plan = table_.plan(size, pen_.width()); plan.blocks.size() == 1)
                return first_ = {std::move(plan)};
    return first_;
}

/// Of a long table, several columns in smaller type, where that saves a page.
void LaidTable::add_tight_plans() {
    for (const double size : styles_.tight) {
        std::vector<TablePlan> tight;
        if (is_long())
            add_plans(tight, size);
        std::copy_if(tight.begin(), tight.end(), std::back_inserter(first_),
                     [](const TablePlan& plan) { return plan.across > 1; });
    }
}

std::optional<TablePlan> LaidTable::fitting(double height_limit) {
    for (const double padding : paddings)
        for (TablePlan plan : first_plans()) {
            plan.padding = padding;
            if (height(plan) <= height_limit)
                return plan;
        }
    return std::nullopt;
}

std::optional<TablePlan> LaidTable::column(double width, double height_limit) {
    for (const double size : styles_.stand) {
        TablePlan plan = table_.plan(size, width);
        if ((styles_.least > 0 || size <= largest_) && plan.blocks.size() == 1
            && height(plan) <= height_limit)
            return plan;
    }
    return std::nullopt;
}

double LaidTable::comfortable_height() {
    constexpr double share = 0.78;
    double least = height(preferred());
    for (const TablePlan& plan : first_plans())
        if (plan.size >= share * preferred().size)
            least = std::min(least, height(plan));
    return least;
}

std::size_t LaidTable::pages(const TablePlan& plan, double room) {
    std::size_t count = 0;
    for (const ColumnBlock& block : plan.blocks)
        count += (ranges(plan, block, room).size() + plan.across - 1) / plan.across;
    return count;
}

TablePlan LaidTable::for_reading(double room) {
    const double size = is_long() ? styles_.longer_reading : styles_.stand_reading;
    const auto& plans = first_plans();
    TablePlan best = plans.back();
    std::size_t fewest = std::numeric_limits<std::size_t>::max();
    for (const double padding : paddings)
        for (const TablePlan& plan : plans) {
            if (plan.size > size && &plan != &plans.back())
                continue;
            TablePlan tried = plan;
            tried.padding = padding;
            if (const std::size_t count = pages(tried, room); count < fewest)
                fewest = count, best = std::move(tried);
        }
    return best;
}

// On the pages.

void LaidTable::draw(const TablePlan& plan) {
    for (const ColumnBlock& block : plan.blocks)
        draw(plan, block);
}

void LaidTable::draw(const TablePlan& plan, const ColumnBlock& block) {
    pen_.need(std::min(least_height(plan), pen_.whole_room()));
    const double pitch = (pen_.width() + gutter) / static_cast<double>(plan.across);
    const auto split = ranges(plan, block, pen_.room());
    double most = 0;
    for (std::size_t i = 0; i < split.size(); ++i) {
        if (i > 0 && i % plan.across == 0)
            pen_.down(most), pen_.new_page(), most = 0;
        const double x = pen_.left() + pitch * static_cast<double>(i % plan.across);
        most = std::max(most, draw(plan, block, split[i], x));
    }
    pen_.down(most + section_gap);
}

/// The rows under their heads, at `x`; gives their height.
double LaidTable::draw(const TablePlan& plan, const ColumnBlock& block, const RowRange& rows,
                       double x) {
    const double width = block_width(plan, block);
    TypesetPage& page = pen_.sheet();
    const auto rule = [&](double y, double thickness, double grey) {
        page.strokes.push_back({x, y, x + width, y, thickness, grey});
    };
    table_.draw_head(plan, block, page, x, pen_.y());
    double y = pen_.y() + table_.head_height(plan, block);
    rule(y, 0.8, 0);
    for (std::size_t row = rows.begin; row < rows.end; ++row) {
        table_.draw_row(plan, block, row, page, x, y);
        y += table_.row_height(plan, block, row);
        rule(y, 0.3, rule_grey);
    }
    return y - pen_.y();
}

} // namespace sectio::page
