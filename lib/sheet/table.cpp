#include <sectio/page/figures.hpp>
#include <sectio/sheet/table.hpp>

#include <algorithm>
#include <numeric>

namespace sectio {

namespace {

/// Adds a column and its cells, `cell(row)`; a column of words without any is left out.
template <typename Row, typename Cell>
void add(Table& table, const std::vector<Row>& rows, Column column, Cell cell) {
    const bool optional = column.kind == ColumnKind::words;
    if (optional
        && std::all_of(rows.begin(), rows.end(), [&](const Row& r) { return cell(r).empty(); }))
        return;
    table.columns.push_back(std::move(column));
    for (std::size_t i = 0; i < rows.size(); ++i)
        table.rows[i].push_back(cell(rows[i]));
}

/// "53 steps", and "13 of 3/1" for another period than the octave.
std::string group_heading(const std::string& division) {
    return division.find(' ') == std::string::npos ? division + " steps" : division;
}

} // namespace

Table degree_table(const Sheet& sheet) {
    Table table;
    table.rows.resize(sheet.rows.size());
    const auto column = [&](Column c, auto cell) { add(table, sheet.rows, std::move(c), cell); };
    using Row = SheetRow;
    column({"", "No.", ColumnKind::key}, [](const Row& r) { return r.number; });
    column({"", "Name", ColumnKind::words}, [](const Row& r) { return r.name; });
    column({"", "Written", ColumnKind::words}, [](const Row& r) { return r.written_note; });
    column({"", "Interval", ColumnKind::words}, [](const Row& r) { return shortened(r.interval); });
    column({"", "Cents"}, [](const Row& r) { return r.cents; });
    if (sheet.measured)
        column({"", "±"}, [](const Row& r) { return r.uncertainty; });
    column({"", "Next"}, [](const Row& r) { return r.next; });
    column({"Key, deviation", "", ColumnKind::note, 0, true}, [](const Row& r) { return r.note; });
    column({"Key, deviation", "cents", ColumnKind::figure, 0, true},
           [](const Row& r) { return r.deviation; });
    for (std::size_t i = 0; i < sheet.divisions.size(); ++i) {
        if (sheet.divisions[i].keys)
            continue;
        const std::string group = group_heading(sheet.divisions[i].text);
        column({group, "step", ColumnKind::figure, i + 1},
               [i](const Row& r) { return r.steps[i].step; });
        column({group, "error", ColumnKind::figure, i + 1},
               [i](const Row& r) { return r.steps[i].error; });
    }
    return table;
}

Table summary_table(const Sheet& sheet) {
    Table table;
    table.rows.resize(sheet.divisions.size());
    const auto column = [&](Column c, auto cell) {
        add(table, sheet.divisions, std::move(c), cell);
    };
    using Division = SheetDivision;
    column({"", "Equal steps", ColumnKind::words}, [](const Division& d) { return d.text; });
    column({"Error in cents", "RMS"}, [](const Division& d) { return d.rms; });
    column({"Error in cents", "largest"}, [](const Division& d) { return d.max_error; });
    column({"", "at degree", ColumnKind::words}, [](const Division& d) {
        return d.worst_name.empty() ? d.worst : d.worst + " " + d.worst_name;
    });
    return table;
}

std::size_t group_end(const Table& table, const Block& block, std::size_t at) {
    const Column& first = table.columns[block[at]];
    std::size_t end = at + 1;
    while (end < block.size() && !first.group.empty()
           && table.columns[block[end]].group == first.group
           && table.columns[block[end]].part == first.part)
        ++end;
    return end;
}

std::vector<Block> cut_into_blocks(const Table& table, const std::vector<double>& widths,
                                   double available) {
    std::vector<Block> blocks(1);
    Block keys;
    double used = 0, key_width = 0;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        if (table.columns[i].part != 0)
            continue;
        blocks[0].push_back(i);
        used += widths[i];
        if (table.columns[i].kind == ColumnKind::key)
            keys.push_back(i), key_width += widths[i];
    }
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

} // namespace sectio
