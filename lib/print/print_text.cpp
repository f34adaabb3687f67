#include <sectio/page/numbers.hpp>
#include <sectio/print/check_page.hpp>
#include <sectio/print/print.hpp>
#include <sectio/print/shown_table.hpp>

#include <algorithm>

namespace sectio::page {

namespace {

constexpr std::string_view gap = "  ";

std::string spaces(std::size_t count) {
    return std::string(count, ' ');
}

/// Widths that a column needs: of all its cells, and of the tails that its figures share.
struct Measure {
    std::size_t width = 0;
    std::size_t tail = 0;
};

std::string padded_number(const std::string& cell, const Measure& m) {
    const std::string aligned = cell + spaces(m.tail - std::min(m.tail, tail_length(cell)));
    return spaces(m.width - std::min(m.width, display_width(aligned))) + aligned;
}

std::string padded(const std::string& cell, ColumnKind kind, const Measure& m) {
    if (kind == ColumnKind::figure && !cell.empty())
        return padded_number(cell, m);
    const std::string fill = spaces(m.width - std::min(m.width, display_width(cell)));
    return kind == ColumnKind::key ? fill + cell : cell + fill;
}

/// A head stands over its figures, to the right.
std::string padded_head(const Column& column, const Measure& m) {
    const std::string fill = spaces(m.width - std::min(m.width, display_width(column.head)));
    const bool right = column.kind == ColumnKind::figure || column.kind == ColumnKind::key;
    return right ? fill + column.head : column.head + fill;
}

Measure measure(const ShownTable& table, std::size_t column) {
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
void fit_groups(const ShownTable& table, std::vector<Measure>& measures) {
    ColumnBlock all(table.columns.size());
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

std::string ended(std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    return line + "\n";
}

std::string group_line(const ShownTable& table, const ColumnBlock& block,
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
    return any ? ended(line) : "";
}

bool any_head(const ShownTable& table, const ColumnBlock& block) {
    return std::any_of(block.begin(), block.end(),
                       [&](std::size_t i) { return !table.columns[i].head.empty(); });
}

std::string block_text(const ShownTable& table, const ColumnBlock& block,
                       const std::vector<Measure>& measures) {
    std::string out = group_line(table, block, measures), line;
    for (const std::size_t i : block)
        line += padded_head(table.columns[i], measures[i]) + std::string(gap);
    out += any_head(table, block) ? ended(line) : "";
    for (const auto& row : table.rows) {
        line.clear();
        for (const std::size_t i : block)
            line += padded(row[i], table.columns[i].kind, measures[i]) + std::string(gap);
        out += ended(line);
    }
    return out;
}

/// Breaks at spaces into lines of at most `columns` where the words allow it; every line but the
/// first begins with `indent` columns, and so much of the first is taken.
std::string wrapped(const std::string& text, std::size_t columns, std::size_t indent = 0) {
    std::string out;
    std::size_t column = indent;
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t end = std::min(text.find(' ', i), text.size());
        const std::string word = text.substr(i, end - i);
        const std::size_t width = display_width(word);
        const bool breaks = column > indent && column + 1 + width > columns;
        out += (breaks ? "\n" + spaces(indent) : column > indent ? " " : "") + word;
        column = (breaks || column == indent ? indent : column + 1) + width;
        i = end + 1;
    }
    return out + "\n";
}

/// One printing of a page.
struct TextPrinter {
    Digits digits;
    std::size_t columns;

    std::string operator()(const Facts& block) const {
        std::size_t width = 0;
        for (const Fact& f : block.facts)
            if (!f.cell.empty())
                width = std::max(width, display_width(f.label));
        std::string out;
        for (const Fact& f : block.facts)
            if (!f.label.empty() && !f.cell.empty())
                out += f.label + spaces(width - display_width(f.label)) + std::string(gap)
                       + wrapped(for_people(f.cell, digits), columns, width + gap.size());
        return headed(block.heading, out);
    }

    std::string operator()(const Table& block) const {
        const ShownTable table = shown(block, digits);
        if (table.rows.empty() || table.columns.empty())
            return {};
        std::vector<Measure> measures;
        for (std::size_t i = 0; i < table.columns.size(); ++i)
            measures.push_back(measure(table, i));
        fit_groups(table, measures);
        std::vector<double> widths;
        for (const Measure& m : measures)
            widths.push_back(static_cast<double>(m.width + gap.size()));
        std::string out;
        const double room = static_cast<double>(columns + gap.size());
        for (const ColumnBlock& part : cut_into_blocks(table, widths, room))
            out += (out.empty() ? "" : "\n") + block_text(table, part, measures);
        return headed(block.heading, out);
    }

    std::string operator()(const Paragraphs& block) const {
        std::string out;
        for (const Paragraph& p : block.paragraphs)
            out += wrapped(one_line(prefix(p.role) + p.text), columns);
        if (out.empty() && !block.heading.empty())
            return wrapped(one_line(block.heading), columns); // a heading of what follows
        return headed(block.heading, out);
    }

    /// What is drawn to be looked at is not in the text; the tables have its figures.
    std::string operator()(const Ruler&) const { return {}; }
    std::string operator()(const Drawing&) const { return {}; }

    std::string operator()(const NewPage& block) const {
        return "\n" + wrapped(one_line(block.title), columns);
    }

  private:
    std::string headed(const std::string& heading, const std::string& text) const {
        return heading.empty() || text.empty() ? text : wrapped(one_line(heading), columns) + text;
    }
    static std::string prefix(Role role) {
        return role == Role::caution ? "Caution: " : role == Role::source ? "Source: " : "";
    }
};

} // namespace

std::string print_text(const Page& page, const PrintOptions& options) {
    check(page, options);
    const TextPrinter printer{options.for_page(page), options.columns};
    std::string out = page.title.empty() ? "" : wrapped(one_line(page.title), options.columns);
    bool of_words = false, leads = false;
    for (const Block& block : page.blocks) {
        std::string text = std::visit(printer, block);
        const auto* drawing = std::get_if<Drawing>(&block);
        if (drawing && leads) // under a title of its own, which would stand over nothing
            text = wrapped(one_line("Drawn: " + drawing->description + "."), options.columns);
        const auto* words = std::get_if<Paragraphs>(&block);
        leads = words && words->paragraphs.empty() && !words->heading.empty();
        if (text.empty())
            continue;
        out += (out.empty() ? "" : "\n") + text;
        of_words = std::holds_alternative<Paragraphs>(block);
    }
    if (!page.date.empty())
        out += (of_words ? "" : "\n") + ("Figures of " + one_line(page.date) + ".\n");
    return out;
}

} // namespace sectio::page
