#include <sectio/page/shown_table.hpp>

#include <algorithm>

namespace sectio::page {

ShownTable shown(const Table& table, const Digits& digits) {
    std::vector<std::size_t> columns;
    for (std::size_t i = 0; i < table.columns.size(); ++i)
        if (table.columns[i].shown)
            columns.push_back(i);
    ShownTable out;
    if (columns.empty())
        return out;
    out.rows.resize(table.height());
    std::vector<bool> filled(columns.size());
    Cell made;
    for (std::size_t row = 0; row < out.rows.size(); ++row) {
        out.rows[row].reserve(columns.size());
        for (std::size_t i = 0; i < columns.size(); ++i) {
            const Cell& cell = table.at(row, columns[i], made);
            filled[i] = filled[i] || !cell.empty();
            out.rows[row].push_back(for_people(cell, digits));
        }
    }
    for (std::size_t i = columns.size(); i-- > 0;)
        if (!filled[i])
            for (auto& row : out.rows)
                row.erase(row.begin() + static_cast<std::ptrdiff_t>(i));
    for (std::size_t i = 0; i < columns.size(); ++i)
        if (filled[i])
            out.columns.push_back(table.columns[columns[i]]);
    return out;
}

std::size_t group_end(const ShownTable& table, const ColumnBlock& block, std::size_t at) {
    const Column& first = table.columns[block[at]];
    std::size_t end = at + 1;
    while (end < block.size() && !first.group.empty()
           && table.columns[block[end]].group == first.group
           && table.columns[block[end]].part == first.part)
        ++end;
    return end;
}

namespace {

/// Columns that say which row it is, in every block: its number, and the name behind it where both
/// leave most of the width to the others.
ColumnBlock key_columns(const ShownTable& table, const std::vector<double>& widths,
                        double available) {
    constexpr double most = 0.4;
    ColumnBlock keys;
    double used = 0;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const Column& c = table.columns[i];
        const bool name = c.kind == ColumnKind::words && c.part == 0 && c.head == "Name"
                          && keys.size() == 1 && keys[0] + 1 == i
                          && used + widths[i] <= most * available;
        if (c.part == 0 && (c.kind == ColumnKind::key || name))
            keys.push_back(i), used += widths[i];
    }
    return keys;
}

} // namespace

std::vector<ColumnBlock> cut_into_blocks(const ShownTable& table, const std::vector<double>& widths,
                                         double available) {
    std::vector<ColumnBlock> blocks(1);
    const ColumnBlock keys = key_columns(table, widths, available);
    double used = 0, key_width = 0;
    for (const std::size_t key : keys)
        key_width += widths[key];
    for (std::size_t i = 0; i < table.columns.size(); ++i)
        if (table.columns[i].part == 0)
            blocks[0].push_back(i), used += widths[i];
    for (std::size_t i = 0; i < table.columns.size();) {
        const std::size_t part = table.columns[i].part;
        std::size_t end = i;
        double width = 0;
        while (end < table.columns.size() && table.columns[end].part == part)
            width += widths[end++];
        if (part != 0) {
            const bool only_keys = blocks.size() > 1 && blocks.back().size() == keys.size();
            if (used + width > available && !only_keys)
                blocks.push_back(keys), used = key_width;
            for (; i < end; ++i)
                blocks.back().push_back(i);
            used += width;
        }
        i = end;
    }
    return blocks;
}

std::size_t tail_length(const std::string& figure) {
    const std::size_t point = figure.find('.');
    return point == std::string::npos ? 0 : figure.size() - point;
}

} // namespace sectio::page
