#include <sectio/print/page_table.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace sectio::page {

namespace {

constexpr double gap_share = 0.95, widest_gap = 1.8, head_padding = 0.4; ///< of the size of type
constexpr double narrowest_words = 6.5, widest_word = 18;                ///< of the size of type
constexpr int most_cell_lines = 30;
constexpr std::size_t group_line_limit = 4;
constexpr double longest_group_heading = 14; ///< of the size of type
constexpr double head_share = 0.88;          ///< of the size of type

TextStyle cell_style(const Column& column, double size) {
    return {size, column.strong || column.kind == ColumnKind::key};
}
bool stands_right(const Column& column) {
    return column.kind == ColumnKind::figure || column.kind == ColumnKind::key;
}

ColumnBlock all_columns(const ShownTable& table) {
    ColumnBlock all(table.columns.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    return all;
}

double sum(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
}

/// Room that is left over goes between the columns.
void widen_gaps(TablePlan& plan, double width) {
    const double even = (width - sum(plan.widths)) / static_cast<double>(plan.widths.size() - 1);
    plan.gap = std::clamp(even, plan.gap, widest_gap * plan.size);
}

} // namespace

std::vector<double> levelled(const std::vector<double>& naturals, const std::vector<double>& least,
                             double room) {
    const auto cut = [&](double level) {
        std::vector<double> widths;
        for (std::size_t i = 0; i < naturals.size(); ++i)
            widths.push_back(std::clamp(level, std::min(least[i], naturals[i]), naturals[i]));
        return widths;
    };
    double low = 0, high = room;
    for (const double natural : naturals)
        high = std::max(high, natural);
    if (sum(naturals) <= room)
        return naturals;
    constexpr int halvings = 30; // a billionth of the width of a page
    for (int i = 0; i < halvings; ++i) {
        const double level = (low + high) / 2;
        (sum(cut(level)) <= room ? low : high) = level;
    }
    return cut(low);
}

PageTable::PageTable(ShownTable table, Typesetter& type, double least)
    : table_(std::move(table)), type_(type), least_(least), measures_(table_.columns.size()) {
    const TypesetText zero = type_.line("0", {1});
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

TextStyle PageTable::head_style(double size) const {
    return {std::max(size * head_share, std::min(size, least_)), false, true};
}

double PageTable::head_width(const std::string& head) {
    return type_.line(head, {1, false, true}).width() * (least_ > 0 ? 1 : head_share);
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
        if (c.kind == ColumnKind::words && width > narrowest_words)
            m.longest_word =
                std::max(m.longest_word, type_.widest_word(row[column], cell_style(c, 1)));
    }
    m.natural = std::max(m.whole + m.tail, head_width(c.head));
}

void PageTable::widen_for_group(std::size_t begin, std::size_t end) {
    double width = gap_share * static_cast<double>(end - begin - 1);
    for (std::size_t i = begin; i < end; ++i)
        width += measures_[i].natural;
    const double heading = std::min(head_width(table_.columns[begin].group), longest_group_heading);
    measures_[begin].natural += std::max(0.0, heading - width);
}

TablePlan PageTable::plan(double size, double width) {
    TablePlan plan;
    plan.size = size;
    plan.gap = gap_share * size;
    std::vector<double> natural, narrow, unbroken, with_gaps;
    double fixed = -plan.gap, parts = 0;
    for (std::size_t i = 0; i < measures_.size(); ++i) {
        const ColumnMeasure& m = measures_[i];
        const bool is_words = table_.columns[i].kind == ColumnKind::words;
        plan.widths.push_back(m.natural * size);
        (table_.columns[i].part ? parts : fixed) += plan.gap + (is_words ? 0 : m.natural * size);
        if (!is_words)
            continue;
        natural.push_back(m.natural * size);
        narrow.push_back(std::min(m.natural, narrowest_words) * size);
        unbroken.push_back(std::max(narrow.back(), std::min(m.longest_word, widest_word) * size));
    }
    // All parts beside one another where the words, broken into lines, leave room for them.
    const bool one_block = fixed + parts + sum(unbroken) <= width;
    const double room = width - fixed - (one_block ? parts : 0);
    const auto words = levelled(natural, sum(unbroken) <= room ? unbroken : narrow, room);
    for (std::size_t i = 0, word = 0; i < measures_.size(); ++i) {
        if (table_.columns[i].kind == ColumnKind::words)
            plan.widths[i] = words[word++];
        with_gaps.push_back(plan.widths[i] + plan.gap);
    }
    plan.blocks = cut_into_blocks(table_, with_gaps, width + plan.gap + 0.01);
    if (plan.blocks.size() == 1 && table_.columns.size() > 1)
        widen_gaps(plan, width);
    return plan;
}

double PageTable::head_height(const TablePlan& plan, const ColumnBlock& block) {
    return static_cast<double>(1 + most_group_lines(plan, block)) * line_
               * head_style(plan.size).size
           + head_padding * plan.size;
}

TypesetText PageTable::cell(const TablePlan& plan, std::size_t column, const std::string& text) {
    const TextStyle style = cell_style(table_.columns[column], plan.size);
    TypesetText line = type_.line(text, style);
    if (line.width() <= plan.widths[column] + 0.01)
        return line;
    return type_.wrapped(text, style, plan.widths[column], most_cell_lines);
}

double PageTable::cell_offset(const TablePlan& plan, std::size_t column, const std::string& text,
                              const TypesetText& set) {
    const Column& c = table_.columns[column];
    if (!stands_right(c))
        return 0;
    const double missing =
        c.kind == ColumnKind::figure ? (measures_[column].tail - tail_width(text)) * plan.size : 0;
    return plan.widths[column] - set.width() - missing;
}

TextStyle PageTable::group_style(const std::string& group, double size, double width) {
    constexpr double share = 0.75;
    TextStyle style = head_style(size);
    const double natural = type_.line(group, style).width();
    if (natural > width)
        style.size = std::max(
            {style.size * share, style.size * width / natural, std::min(style.size, least_)});
    return style;
}

std::vector<std::string> PageTable::group_lines(const std::string& group, double size,
                                                double width) {
    const TextStyle style = group_style(group, size, width);
    if (type_.line(group, style).width() <= width + 0.01)
        return {group};
    return type_.lines(group, style, width);
}

std::size_t PageTable::most_group_lines(const TablePlan& plan, const ColumnBlock& block) {
    std::size_t most = 0;
    for (std::size_t i = 0; i < block.size();) {
        const std::string& group = table_.columns[block[i]].group;
        const std::size_t end = group_end(table_, block, i);
        double width = -plan.gap;
        for (; i < end; ++i)
            width += plan.widths[block[i]] + plan.gap;
        if (!group.empty())
            most = std::max(most, group_lines(group, plan.size, width).size());
    }
    return std::min(most, group_line_limit);
}

/// Its lines end where the rule over the columns is, at the height `y`.
void PageTable::draw_group(const TablePlan& plan, const std::string& group, double width,
                           TypesetPage& page, double x, double y) {
    const TextStyle style = group_style(group, plan.size, width);
    const auto lines = group_lines(group, plan.size, width);
    const std::size_t count = std::min(lines.size(), group_line_limit);
    const double height = line_ * style.size;
    for (std::size_t i = 0; i < count; ++i) {
        const TypesetText set = type_.clipped(
            i + 1 == count && count < lines.size() ? lines[i] + "…" : lines[i], style, width + 1);
        page.texts.push_back({x + (width - set.width()) / 2,
                              y - static_cast<double>(count - i) * height
                                  + type_.line("0", style).baseline() - set.baseline(),
                              set});
    }
    page.strokes.push_back({x, y, x + width, y, 0.4, 0});
}

void PageTable::draw_head(const TablePlan& plan, const ColumnBlock& block, TypesetPage& page,
                          double x, double y) {
    const TextStyle style = head_style(plan.size);
    const double under =
        y + static_cast<double>(most_group_lines(plan, block)) * line_ * style.size;
    for (std::size_t i = 0; i < block.size();) {
        const std::string& group = table_.columns[block[i]].group;
        const std::size_t end = group_end(table_, block, i);
        const double begin = x;
        for (; i < end; ++i) {
            const Column& c = table_.columns[block[i]];
            const double width = plan.widths[block[i]];
            const TypesetText head = type_.line(c.head, style);
            page.texts.push_back({x + (stands_right(c) ? width - head.width() : 0), under, head});
            x += width + plan.gap;
        }
        if (!group.empty())
            draw_group(plan, group, x - plan.gap - begin, page, begin, under);
    }
}

PageTable::Height PageTable::height_of(const TablePlan& plan, const ColumnBlock& block,
                                       std::size_t row) {
    Height most{ascent_ * plan.size, (line_ - ascent_) * plan.size};
    for (const std::size_t i : block) {
        const std::string& text = table_.rows[row][i];
        if (table_.columns[i].kind != ColumnKind::words || text.empty())
            continue;
        const TypesetText set = cell(plan, i, text);
        most.ascent = std::max(most.ascent, set.baseline());
        most.descent = std::max(most.descent, set.height() - set.baseline());
    }
    return most;
}

double PageTable::row_height(const TablePlan& plan, const ColumnBlock& block, std::size_t row) {
    const Height height = height_of(plan, block, row);
    return height.ascent + height.descent + plan.padding * plan.size;
}

void PageTable::draw_row(const TablePlan& plan, const ColumnBlock& block, std::size_t row,
                         TypesetPage& page, double x, double y) {
    const double baseline = y + plan.padding / 2 * plan.size + height_of(plan, block, row).ascent;
    for (const std::size_t i : block) {
        const std::string& text = table_.rows[row][i];
        const TypesetText set = cell(plan, i, text);
        page.texts.push_back({x + cell_offset(plan, i, text, set), baseline - set.baseline(), set});
        x += plan.widths[i] + plan.gap;
    }
}

double block_width(const TablePlan& plan, const ColumnBlock& block) {
    double width = -plan.gap;
    for (const std::size_t i : block)
        width += plan.widths[i] + plan.gap;
    return width;
}

} // namespace sectio::page
