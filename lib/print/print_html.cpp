#include <sectio/base/markup.hpp>
#include <sectio/page/numbers.hpp>
#include <sectio/print/check_page.hpp>
#include <sectio/print/draw.hpp>
#include <sectio/print/html.hpp>
#include <sectio/print/inline_svg.hpp>
#include <sectio/print/lay_out.hpp>
#include <sectio/print/print.hpp>
#include <sectio/print/shown_table.hpp>

#include <algorithm>

namespace sectio::page {

namespace {

/// Letters that a line of print holds beside the margins, for cutting wide tables.
constexpr double line_letters = 92;
constexpr double most_words = 14; ///< letters of a column of words before it breaks into lines
constexpr double drawing_width = points_of_mm(172);

constexpr std::string_view style_rules = R"(
@page { margin: 15mm 14mm 15mm 24mm;
  @bottom-right { content: "page " counter(page) " of " counter(pages); font: 9pt sans-serif; } }
* { box-sizing: border-box; }
body { font: 11pt/1.35 "Noto Sans", "Noto Music", "Liberation Sans", Arial, sans-serif;
  color: #000; background: #fff; max-width: 172mm; margin: 1em auto; padding: 0 4px; }
h1 { font-size: 19pt; margin: 0 0 .2em; overflow-wrap: anywhere; }
h2 { font-size: 13pt; margin: 1em 0 .3em; break-after: avoid; overflow-wrap: anywhere; }
dl { margin: 0 0 1em; } dl div { display: inline-block; margin-right: 1.6em; }
dt, dd { display: inline; margin: 0; } dt { font-style: italic; } dd { font-weight: bold;
  overflow-wrap: anywhere; }
figure { margin: 0 0 1em; } figure svg { display: block; width: 100%; height: auto; }
.wide { overflow-x: auto; }
@media screen { .wide figure svg { min-width: 36em; }
  .wide[data-cut]::before { content: "Wider than the screen: move it sideways"; display: block;
    position: sticky; left: 0; width: max-content; font-size: .85em; font-style: italic; } }
table { border-collapse: collapse; margin: 0 0 1.1em; font-size: 10.5pt; }
caption { text-align: left; font-style: italic; }
th { font-weight: normal; font-style: italic; font-size: .9em; }
th, td { padding: .12em 0 .12em .95em; text-align: left; vertical-align: baseline; }
th:first-child, td:first-child { padding-left: 0; }
thead tr:last-child { border-bottom: .8pt solid; }
tbody tr { border-bottom: .3pt solid #999; break-inside: avoid; }
thead { display: table-header-group; }
th[colspan] { text-align: center; } .group { border-bottom: .4pt solid; }
.n { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; }
.b { font-weight: bold; white-space: nowrap; }
td.w { overflow-wrap: break-word; max-width: 24ch; }
.a { font-family: "DejaVu Sans", "Segoe UI Symbol", "Apple Symbols", sans-serif; }
.h { visibility: hidden; }
.caution { font-weight: bold; } .note { font-size: 8.5pt; margin: .15em 0; overflow-wrap: anywhere; }
:root { color-scheme: light dark; }
@media screen and (prefers-color-scheme: dark) { body { color: #eee; background: #111; }
  figure svg { filter: invert(1) hue-rotate(180deg); } }
h2.page { font-size: 16pt; border-top: .8pt solid; padding-top: .4em; }
@media print { h2.page { break-before: page; border: 0; padding: 0; } body { margin: 0; padding: 0; max-width: none; } .wide { overflow: visible; } }
)";

std::string classes(const Column& column) {
    switch (column.kind) {
    case ColumnKind::words:
        return "class=\"w\" dir=\"auto\"";
    case ColumnKind::note:
        return "class=\"b\"";
    case ColumnKind::key:
        return "class=\"n b\"";
    default:
        return column.strong ? "class=\"n b\"" : "class=\"n\"";
    }
}

std::size_t column_tail(const ShownTable& table, std::size_t column) {
    std::size_t tail = 0;
    for (const auto& row : table.rows)
        tail = std::max(tail, tail_length(row[column]));
    return tail;
}

/// What a figure lacks after the point is there unseen, so that points stand below one another.
std::string number_cell(const std::string& figure, std::size_t tail) {
    const std::size_t own = tail_length(figure);
    if (figure.empty() || own == tail)
        return figure;
    const std::string missing =
        own == 0 ? "." + std::string(tail - 1, '0') : std::string(tail - own, '0');
    return figure + element("span", "class=\"h\" aria-hidden=\"true\"", missing);
}

std::string head_rows(const ShownTable& table, const ColumnBlock& block) {
    std::string groups, heads;
    for (std::size_t i = 0; i < block.size();) {
        const Column& first = table.columns[block[i]];
        const std::size_t end = group_end(table, block, i);
        groups += first.group.empty() ? "<td></td>"
                                      : element("th",
                                                "class=\"group\" scope=\"colgroup\" colspan=\""
                                                    + std::to_string(end - i) + "\"",
                                                escaped(first.group));
        for (; i < end; ++i) {
            const Column& c = table.columns[block[i]];
            heads += c.head.empty() ? "<td></td>"
                                    : element("th", classes(c) + " scope=\"col\"", escaped(c.head));
        }
    }
    return element("thead", "", element("tr", "", groups) + element("tr", "", heads)) + "\n";
}

std::string cell_html(const Column& column, const std::string& text, std::size_t tail) {
    const bool figure = column.kind == ColumnKind::figure;
    return element("td", classes(column),
                   figure ? number_cell(escaped(text), tail) : with_accidentals(escaped(text)));
}

/// What may be wider than a phone, and is then moved sideways: by keys too, hence the focus.
std::string wide(const std::string& name, const std::string& content) {
    return element("div",
                   "class=\"wide\" role=\"group\" tabindex=\"0\" aria-label=\"" + name + "\"",
                   content)
           + "\n";
}

std::string block_html(const ShownTable& table, const ColumnBlock& block) {
    std::vector<std::size_t> tails(table.columns.size());
    for (const std::size_t i : block)
        tails[i] = column_tail(table, i);
    std::string body;
    for (const auto& row : table.rows) {
        std::string cells;
        for (const std::size_t i : block)
            cells += cell_html(table.columns[i], row[i], tails[i]);
        body += element("tr", "", cells) + "\n";
    }
    const std::string content = head_rows(table, block) + element("tbody", "", "\n" + body);
    return wide("Table", element("table", "", content));
}

std::string table_html(const ShownTable& table) {
    std::vector<double> widths;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const Column& c = table.columns[i];
        double width = static_cast<double>(display_width(c.head));
        for (const auto& row : table.rows)
            width = std::max(width, static_cast<double>(display_width(row[i])));
        widths.push_back((c.kind == ColumnKind::words ? std::min(width, most_words) : width) + 2);
    }
    std::string out;
    for (const ColumnBlock& block : cut_into_blocks(table, widths, line_letters))
        out += block_html(table, block);
    return out;
}

/// An SVG document as an element of HTML, for those who cannot see it described; `number` is its
/// own on the page.
std::string number_html(const std::string& svg, const std::string& description,
                        std::size_t number) {
    return wide("Figure",
                element("figure", "role=\"img\" aria-label=\"" + escaped(description) + "\"",
                        inline_svg(svg, number)));
}

std::string heading_html(const std::string& heading) {
    return heading.empty() ? "" : element("h2", "dir=\"auto\"", escaped(one_line(heading))) + "\n";
}

/// The blocks of a page, one by one.
struct HtmlPrinter {
    Digits digits;
    std::size_t number; ///< of the block

    std::string operator()(const Facts& block) const {
        std::string facts;
        for (const Fact& f : block.facts)
            if (!f.label.empty() && !f.cell.empty())
                facts += element("div", "",
                                 element("dt", "", escaped(one_line(f.label))) + " "
                                     + element("dd", "", escaped(for_people(f.cell, digits))))
                         + "\n";
        return facts.empty() ? ""
                             : heading_html(block.heading) + element("dl", "", "\n" + facts) + "\n";
    }
    std::string operator()(const Table& block) const {
        const ShownTable table = shown(block, digits);
        return table.rows.empty() || table.columns.empty()
                   ? ""
                   : heading_html(block.heading) + table_html(table);
    }
    std::string operator()(const Ruler& block) const {
        return block.lines.empty() || block.marks.empty()
                   ? ""
                   : number_html(as_svg(set_ruler(block, drawing_width)), block.description,
                                 number);
    }
    std::string operator()(const Drawing& block) const {
        return heading_html(block.heading)
               + number_html(as_svg(set_drawing(with_figures(block, digits), drawing_width)),
                             block.description, number);
    }
    std::string operator()(const Paragraphs& block) const {
        std::string out = heading_html(block.heading);
        for (const Paragraph& p : block.paragraphs)
            out += paragraph_html(p);
        return out;
    }

    std::string operator()(const NewPage& block) const {
        return element("h2", "class=\"page\" dir=\"auto\"", escaped(one_line(block.title))) + "\n";
    }

  private:
    static std::string paragraph_html(const Paragraph& p) {
        const std::string text = escaped(one_line(p.text));
        switch (p.role) {
        case Role::caution:
            return element("p", "class=\"caution\"", "Caution: " + text) + "\n";
        case Role::remark:
            return element("p", "class=\"note\" dir=\"auto\"", text) + "\n";
        case Role::source:
            return element("p", "class=\"note\"", "Source: " + text) + "\n";
        case Role::note:
            return element("p", "class=\"note\"", text) + "\n";
        case Role::plain:
            break;
        }
        return element("p", "dir=\"auto\"", text) + "\n";
    }
};

/// A page that sounds may load nothing and send nothing: no address is allowed to it
/// (Content Security Policy Level 3).
std::string player_head(const Page& page) {
    if (!page.sounds)
        return {};
    return "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
           "'unsafe-inline'; script-src 'unsafe-inline'\"/>";
}

/// The blocks, and after the first, which says what the page is about, the player.
std::string blocks_html(const Page& page, const PrintOptions& options) {
    std::string out;
    for (std::size_t i = 0; i < page.blocks.size(); ++i) {
        out += std::visit(HtmlPrinter{options.for_page(page), i}, page.blocks[i]);
        if (i == 0 && page.sounds)
            out += player_html(*page.sounds);
    }
    return out;
}

} // namespace

std::string print_html(const Page& page, const PrintOptions& options) {
    check(page, options);
    const std::string title = escaped(one_line(page.title));
    const std::string head =
        "<meta charset=\"utf-8\"/>"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>"
        "<meta name=\"generator\" content=\"Sectio\"/>"
        + player_head(page) + element("title", "", title) + "<style>" + std::string(style_rules)
        + (page.sounds ? player_style() : "") + "</style>";
    std::string body = element("h1", "dir=\"auto\"", title) + "\n" + blocks_html(page, options);
    body += element("p", "class=\"note\"",
                    page.date.empty() ? "Sectio" : "Sectio, figures of " + escaped(page.date))
            + "\n" + (page.sounds ? player_script() : "");
    return "<!DOCTYPE html>\n"
           + element("html",
                     "xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"" + escaped(page.language)
                         + "\"",
                     "\n" + element("head", "", head) + "\n"
                         + element("body", "", "\n" + element("main", "", body)) + "\n")
           + "\n";
}

} // namespace sectio::page
