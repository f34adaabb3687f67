#include <sectio/page/page_table.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace sectio::page {

namespace {

constexpr double gap_share = 0.95, widest_gap = 1.8, row_padding = 0.3; ///< of the size of type
constexpr double narrowest_words = 6.5;                                 ///< of the size of type
constexpr int most_cell_lines = 6;
constexpr double longest_group_heading = 14; ///< of the size of type

TextStyle head_style(double size) {
    return {size * 0.88, false, true};
}
TextStyle cell_style(const Column& column, double size) {
    return {size, column.strong || column.kind == ColumnKind::key};
}
bool stands_right(const Column& column) {
    return column.kind == ColumnKind::figure || column.kind == ColumnKind::key;
}

/// The level to which `naturals` may rise so that their sum, each cut at the level, is `room`.
double common_level(std::vector<double> naturals, double room) {
    std::sort(naturals.begin(), naturals.end());
    for (std::size_t i = 0; i < naturals.size(); ++i) {
        const double level = room / static_cast<double>(naturals.size() - i);
        if (naturals[i] > level)
            return level;
        room -= naturals[i];
    }
    return naturals.empty() ? 0 : naturals.back();
}

ColumnBlock all_columns(const ShownTable& table) {
    ColumnBlock all(table.columns.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    return all;
}

/// Room that is left over goes between the columns.
void widen_gaps(TablePlan& plan, double width) {
    const double used = std::accumulate(plan.widths.begin(), plan.widths.end(), 0.0);
    const double even = (width - used) / static_cast<double>(plan.widths.size() - 1);
    plan.gap = std::clamp(even, plan.gap, widest_gap * plan.size);
}

} // namespace

PageTable::PageTable(ShownTable table, Typesetter& type)
    : table_(std::move(table)), type_(type), measures_(table_.columns.size()) {
    const SetText zero = type_.line("0", {1});
    line_ = zero.height(), ascent_ = zero.baseline(), digit_ = zero.width();
    point_ = type_.line("0.0", {1}).width() - 2 * digit_;
    for (std::size_t i = 0; i < table_.columns.size(); ++i)
        measure_column(i);
    const ColumnBlock all = all_columns(table_);
    for (std::size_t i = 0; i < all.size();) {
        const std::size_t end = group_end(table_, all, i);
        if (!table_.columns[i].group.empty())
            widen_for_group(i, end);
        i = end;
    }
}

double PageTable::tail_width(const std::string& figure) const {
    const std::size_t length = tail_length(figure);
    return length == 0 ? 0 : point_ + static_cast<double>(length - 1) * digit_;
}

void PageTable::measure_column(std::size_t column) {
    const Column& c = table_.columns[column];
    ColumnMeasure& m = measures_[column];
    for (const auto& row : table_.rows) {
        const double width = type_.line(row[column], cell_style(c, 1)).width();
        const double tail = c.kind == ColumnKind::figure ? tail_width(row[column]) : 0;
        m.whole = std::max(m.whole, width - tail);
        m.tail = std::max(m.tail, tail);
    }
    m.natural = std::max(m.whole + m.tail, type_.line(c.head, head_style(1)).width());
}

void PageTable::widen_for_group(std::size_t begin, std::size_t end) {
    double width = gap_share * static_cast<double>(end - begin - 1);
    for (std::size_t i = begin; i < end; ++i)
        width += measures_[i].natural;
    const double heading = std::min(type_.line(table_.columns[begin].group, head_style(1)).width(),
                                    longest_group_heading);
    measures_[begin].natural += std::max(0.0, heading - width);
}

TablePlan PageTable::plan(double size, double width) const {
    TablePlan plan;
    plan.size = size;
    plan.gap = gap_share * size;
    std::vector<double> words, with_gaps;
    double fixed = -plan.gap, parts = 0, least = 0;
    for (std::size_t i = 0; i < measures_.size(); ++i) {
        const double natural = measures_[i].natural * size;
        const bool is_words = table_.columns[i].kind == ColumnKind::words;
        plan.widths.push_back(natural);
        (table_.columns[i].part ? parts : fixed) += plan.gap + (is_words ? 0 : natural);
        if (is_words)
            words.push_back(natural), least += std::min(natural, narrowest_words * size);
    }
    // All parts beside one another where the words, broken into lines, leave room for them.
    const double room = width - fixed - (fixed + parts + least <= width ? parts : 0);
    const double level = common_level(words, std::max(room, 0.0));
    for (std::size_t i = 0; i < measures_.size(); ++i) {
        if (table_.columns[i].kind == ColumnKind::words)
            plan.widths[i] = std::min(plan.widths[i], level);
        with_gaps.push_back(plan.widths[i] + plan.gap);
    }
    plan.blocks = cut_into_blocks(table_, with_gaps, width + plan.gap + 0.01);
    if (plan.blocks.size() == 1 && table_.columns.size() > 1)
        widen_gaps(plan, width);
    return plan;
}

double PageTable::row_height(double size) const {
    return (line_ + row_padding) * size;
}

double PageTable::head_height(double size) const {
    return 2 * line_ * head_style(size).size + row_padding * size;
}

double PageTable::height(const TablePlan& plan) const {
    double lines = 0;
    for (const auto& row : table_.rows) {
        double most = 1;
        for (std::size_t i = 0; i < row.size(); ++i)
            if (table_.columns[i].kind == ColumnKind::words && plan.widths[i] > 0)
                most = std::max(
                    most,
                    std::ceil(type_.line(row[i], cell_style(table_.columns[i], plan.size)).width()
                                  / plan.widths[i]
                              - 1e-6));
        lines += most;
    }
    const double rows = static_cast<double>(table_.rows.size());
    const double block = head_height(plan.size) + (lines * line_ + rows * row_padding) * plan.size;
    return block * static_cast<double>(plan.blocks.size());
}

SetText PageTable::cell(const TablePlan& plan, std::size_t column, const std::string& text) {
    const TextStyle style = cell_style(table_.columns[column], plan.size);
    SetText line = type_.line(text, style);
    if (line.width() <= plan.widths[column] + 0.01)
        return line;
    return type_.wrapped(text, style, plan.widths[column], most_cell_lines);
}

double PageTable::cell_offset(const TablePlan& plan, std::size_t column, const std::string& text,
                              const SetText& set) {
    const Column& c = table_.columns[column];
    if (!stands_right(c))
        return 0;
    const double missing =
        c.kind == ColumnKind::figure ? (measures_[column].tail - tail_width(text)) * plan.size : 0;
    return plan.widths[column] - set.width() - missing;
}

/// Made smaller, to three quarters, before it is cut.
SetText PageTable::group_heading(const std::string& group, TextStyle style, double width) {
    constexpr double least = 0.75;
    const double natural = type_.line(group, style).width();
    if (natural > width)
        style.size *= std::max(least, width / natural);
    return type_.clipped(group, style, width);
}

void PageTable::draw_head(const TablePlan& plan, const ColumnBlock& block, SetPage& page, double x,
                          double y) {
    const TextStyle style = head_style(plan.size);
    const double line = line_ * style.size;
    for (std::size_t i = 0; i < block.size();) {
        const std::string& group = table_.columns[block[i]].group;
        const std::size_t end = group_end(table_, block, i);
        const double begin = x;
        for (; i < end; ++i) {
            const Column& c = table_.columns[block[i]];
            const double width = plan.widths[block[i]];
            const SetText head = type_.line(c.head, style);
            page.texts.push_back(
                {x + (stands_right(c) ? width - head.width() : 0), y + line, head});
            x += width + plan.gap;
        }
        if (group.empty())
            continue;
        const double width = x - plan.gap - begin;
        const SetText heading = group_heading(group, style, width);
        page.texts.push_back({begin + (width - heading.width()) / 2,
                              y + line - type_.line("0", style).height()
                                  + type_.line("0", style).baseline() - heading.baseline(),
                              heading});
        page.strokes.push_back({begin, y + line, begin + width, y + line, 0.4, 0});
    }
}

double PageTable::draw_row(const TablePlan& plan, const ColumnBlock& block, std::size_t row,
                           SetPage* page, double x, double y) {
    double ascent = ascent_ * plan.size, descent = (line_ - ascent_) * plan.size;
    std::vector<PlacedText> cells;
    for (const std::size_t i : block) {
        const std::string& text = table_.rows[row][i];
        const SetText set = cell(plan, i, text);
        cells.push_back({x + cell_offset(plan, i, text, set), 0, set});
        x += plan.widths[i] + plan.gap;
        if (table_.columns[i].kind != ColumnKind::words || text.empty())
            continue;
        ascent = std::max(ascent, set.baseline());
        descent = std::max(descent, set.height() - set.baseline());
    }
    const double top = y + row_padding / 2 * plan.size;
    for (PlacedText& placed : cells) {
        placed.y = top + ascent - placed.text.baseline();
        if (page)
            page->texts.push_back(placed);
    }
    return ascent + descent + row_padding * plan.size;
}

double block_width(const TablePlan& plan, const ColumnBlock& block) {
    double width = -plan.gap;
    for (const std::size_t i : block)
        width += plan.widths[i] + plan.gap;
    return width;
}

} // namespace sectio::page
