#include <sectio/page/figures.hpp>
#include <sectio/sheet/print.hpp>
#include <sectio/sheet/table.hpp>

#include <algorithm>

namespace sectio {

namespace {

constexpr std::size_t line_columns = 100;
constexpr std::string_view gap = "  ";

std::string spaces(std::size_t count) {
    return std::string(count, ' ');
}

/// Widths that a column needs: of all its cells, and of the tails that its figures share.
struct Measure {
    std::size_t width = 0;
    std::size_t tail = 0;
};

std::string padded_figure(const std::string& cell, const Measure& m) {
    const std::string aligned = cell + spaces(m.tail - std::min(m.tail, tail_length(cell)));
    return spaces(m.width - std::min(m.width, display_width(aligned))) + aligned;
}

std::string padded(const std::string& cell, ColumnKind kind, const Measure& m) {
    if (kind == ColumnKind::figure && !cell.empty())
        return padded_figure(cell, m);
    const std::string fill = spaces(m.width - std::min(m.width, display_width(cell)));
    return kind == ColumnKind::key ? fill + cell : cell + fill;
}

/// A head stands over its figures, to the right.
std::string padded_head(const Column& column, const Measure& m) {
    const std::string fill = spaces(m.width - std::min(m.width, display_width(column.head)));
    const bool right = column.kind == ColumnKind::figure || column.kind == ColumnKind::key;
    return right ? fill + column.head : column.head + fill;
}

Measure measure(const Table& table, std::size_t column) {
    const Column& c = table.columns[column];
    Measure m;
    std::size_t whole = 0;
    for (const auto& row : table.rows) {
        const std::size_t tail = c.kind == ColumnKind::figure ? tail_length(row[column]) : 0;
        m.tail = std::max(m.tail, tail);
        whole = std::max(whole, display_width(row[column]) - tail);
    }
    m.width = std::max(whole + m.tail, display_width(c.head));
    return m;
}

/// Widens the first column of a group so that the group's heading fits over it.
void fit_groups(const Table& table, std::vector<Measure>& measures) {
    Block all(table.columns.size());
    for (std::size_t i = 0; i < all.size(); ++i)
        all[i] = i;
    for (std::size_t i = 0; i < all.size();) {
        const std::size_t end = group_end(table, all, i);
        std::size_t width = gap.size() * (end - i - 1);
        for (std::size_t k = i; k < end; ++k)
            width += measures[k].width;
        const std::size_t heading = display_width(table.columns[i].group);
        measures[i].width += heading - std::min(heading, width);
        i = end;
    }
}

std::string trimmed(std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    return line + "\n";
}

std::string group_line(const Table& table, const Block& block,
                       const std::vector<Measure>& measures) {
    std::string line;
    bool any = false;
    for (std::size_t i = 0; i < block.size();) {
        const std::size_t end = group_end(table, block, i);
        std::size_t width = gap.size() * (end - i - 1);
        for (std::size_t k = i; k < end; ++k)
            width += measures[block[k]].width;
        const std::string& group = table.columns[block[i]].group;
        any = any || !group.empty();
        line += (i ? std::string(gap) : "") + spaces(width - std::min(width, display_width(group)))
                + group;
        i = end;
    }
    return any ? trimmed(line) : "";
}

std::string block_text(const Table& table, const Block& block,
                       const std::vector<Measure>& measures) {
    std::string out = group_line(table, block, measures), line;
    for (const std::size_t i : block)
        line += padded_head(table.columns[i], measures[i]) + std::string(gap);
    out += trimmed(line);
    for (const auto& row : table.rows) {
        line.clear();
        for (const std::size_t i : block)
            line += padded(row[i], table.columns[i].kind, measures[i]) + std::string(gap);
        out += trimmed(line);
    }
    return out;
}

std::string table_text(const Table& table) {
    std::vector<Measure> measures;
    for (std::size_t i = 0; i < table.columns.size(); ++i)
        measures.push_back(measure(table, i));
    fit_groups(table, measures);
    std::vector<double> widths;
    for (const Measure& m : measures)
        widths.push_back(static_cast<double>(m.width + gap.size()));
    std::string out;
    for (const Block& block : cut_into_blocks(table, widths, line_columns + gap.size()))
        out += (out.empty() ? "" : "\n") + block_text(table, block, measures);
    return out;
}

std::string facts_text(const std::vector<SheetFact>& facts) {
    std::size_t width = 0;
    for (const SheetFact& f : facts)
        width = std::max(width, display_width(f.label));
    std::string out;
    for (const SheetFact& f : facts)
        out += f.label + spaces(width - display_width(f.label)) + std::string(gap) + f.value + "\n";
    return out;
}

/// Breaks at spaces into lines of at most line_columns where the words allow it.
std::string paragraph(const std::string& text) {
    std::string out;
    std::size_t column = 0;
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t end = std::min(text.find(' ', i), text.size());
        const std::string word = text.substr(i, end - i);
        const std::size_t width = display_width(word);
        const bool breaks = column > 0 && column + 1 + width > line_columns;
        out += (breaks ? "\n" : column > 0 ? " " : "") + word;
        column = breaks || column == 0 ? width : column + 1 + width;
        i = end + 1;
    }
    return out + "\n";
}

} // namespace

std::string print_text(const Sheet& sheet) {
    std::string out = paragraph(sheet.title) + "\n" + facts_text(sheet.facts) + "\n"
                      + table_text(degree_table(sheet)) + "\n";
    if (!sheet.divisions.empty())
        out += table_text(summary_table(sheet)) + "\n";
    for (const std::string& caution : sheet.cautions)
        out += paragraph("Caution: " + caution);
    for (const std::string& remark : sheet.remarks)
        out += paragraph(remark);
    for (const std::string& note : sheet.notes)
        out += paragraph(note);
    if (!sheet.source.empty())
        out += paragraph("Source: " + sheet.source);
    if (!sheet.date.empty())
        out += "Figures of " + sheet.date + ".\n";
    return out;
}

} // namespace sectio
