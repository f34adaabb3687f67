#include <sectio/page/numbers.hpp>
#include <sectio/print/shown_table.hpp>

#include <algorithm>
#include <utility>

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
    for (Column& column : out.columns) { // which may be named by a file
        column.head = one_line(column.head);
        column.group = one_line(column.group);
    }
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

/// Columns that say which row it is, in every block: its number, and the name after it where both
/// leave most of the width to the others; of rows without number the first words under a heading.
ColumnBlock key_columns(const ShownTable& table, const std::vector<double>& widths,
                        double available) {
    constexpr double most = 0.4, most_words = 0.5;
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
    if (!keys.empty())
        return keys;
    const auto first =
        std::find_if(table.columns.begin(), table.columns.end(), [](const Column& c) {
            return c.part == 0 && c.kind == ColumnKind::words && !c.head.empty();
        });
    const auto at = static_cast<std::size_t>(first - table.columns.begin());
    if (first != table.columns.end() && widths[at] <= most_words * available)
        keys.push_back(at);
    return keys;
}

/// Fills blocks from left to right.
class BlockCutter {
  public:
    BlockCutter(const ShownTable& table, const std::vector<double>& widths, double available)
        : table_(table), widths_(widths), available_(available),
          keys_(key_columns(table, widths, available)) {}

    /// Columns that stay together, unless they are wider than a whole block; then those under one
    /// heading do, with the same exception.
    void add(const ColumnBlock& part) {
        if (begin(part, 0, part.size()))
            return add(part, 0, part.size());
        for (std::size_t i = 0; i < part.size();) {
            const std::size_t end = group_end(table_, part, i);
            begin(part, i, end);
            add(part, i, end);
            i = end;
        }
    }
    std::vector<ColumnBlock> take() { return std::move(blocks_); }

  private:
    bool only_keys() const {
        return blocks_.size() == 1 ? blocks_.back().empty() : blocks_.back().size() == shown_keys_;
    }
    /// With all keys, or the first alone where only that leaves `width`.
    void begin_block(double width) {
        double all = 0;
        for (const std::size_t key : keys_)
            all += widths_[key];
        const bool first_alone =
            keys_.size() > 1 && all + width > available_ && widths_[keys_[0]] + width <= available_;
        shown_keys_ = first_alone ? 1 : keys_.size();
        used_ = first_alone ? widths_[keys_[0]] : all;
        blocks_.emplace_back(keys_.begin(),
                             keys_.begin() + static_cast<std::ptrdiff_t>(shown_keys_));
    }
    /// Whether the columns fit into the block, or into the new one that they then begin.
    bool begin(const ColumnBlock& part, std::size_t from, std::size_t end) {
        double width = 0;
        for (std::size_t i = from; i < end; ++i)
            width += widths_[part[i]];
        if (used_ + width > available_ && !only_keys())
            begin_block(width);
        return used_ + width <= available_;
    }
    void add(const ColumnBlock& part, std::size_t from, std::size_t end) {
        for (std::size_t i = from; i < end; ++i)
            add(part[i]);
    }
    void add(std::size_t column) {
        const bool is_key = std::find(keys_.begin(), keys_.end(), column) != keys_.end();
        if (is_key && blocks_.size() > 1)
            return;
        if (used_ + widths_[column] > available_ && !only_keys())
            begin_block(widths_[column]);
        blocks_.back().push_back(column), used_ += widths_[column];
    }

    const ShownTable& table_;
    const std::vector<double>& widths_;
    double available_, used_ = 0;
    ColumnBlock keys_;
    std::size_t shown_keys_ = 0; ///< in the last block
    std::vector<ColumnBlock> blocks_{1};
};

} // namespace

std::vector<ColumnBlock> cut_into_blocks(const ShownTable& table, const std::vector<double>& widths,
                                         double available) {
    BlockCutter cutter(table, widths, available);
    ColumnBlock first;
    for (std::size_t i = 0; i < table.columns.size(); ++i)
        if (table.columns[i].part == 0)
            first.push_back(i);
    cutter.add(first);
    for (std::size_t i = 0; i < table.columns.size();) {
        const std::size_t part = table.columns[i].part;
        ColumnBlock together;
        for (; i < table.columns.size() && table.columns[i].part == part; ++i)
            together.push_back(i);
        if (part != 0)
            cutter.add(together);
    }
    return cutter.take();
}

std::size_t tail_length(const std::string& figure) {
    const std::size_t point = figure.find('.');
    return point == std::string::npos ? 0 : figure.size() - point;
}

} // namespace sectio::page
