#include <sectio/base/limits.hpp>
#include <sectio/page/draw.hpp>
#include <sectio/page/figures.hpp>
#include <sectio/page/lay_out.hpp>
#include <sectio/page/messages.hpp>
#include <sectio/page/page_facts.hpp>
#include <sectio/page/page_pen.hpp>
#include <sectio/page/page_table.hpp>
#include <sectio/page/ruler.hpp>
#include <sectio/page/styles.hpp>

#include <algorithm>
#include <utility>
#include <vector>

namespace sectio::page {

namespace {

constexpr double section_gap = 11, note_gap = 1.5, heading_gap = 3;
constexpr int most_title_lines = 3;
constexpr double rule_grey = 0.65;
/// Up to so many rows the type stays large; a longer table takes more pages.
constexpr std::size_t stand_rows = 25;

std::string text_of(const Paragraph& p) {
    return one_line((p.role == Role::caution  ? "Caution: "
                     : p.role == Role::source ? "Source: "
                                              : "")
                    + p.text);
}

/// The first fact that people see, for the head of every page.
std::string first_fact(const Page& page, const Digits& digits) {
    for (const Block& block : page.blocks)
        if (const auto* facts = std::get_if<Facts>(&block))
            for (const Fact& fact : facts->facts)
                if (!fact.label.empty())
                    return fact.label + " " + for_people(fact.cell, digits);
    return {};
}

/// Lays out one page. A block is drawn by its overload with `Way::draw`, or only measured.
class Pager {
  public:
    Pager(const Page& page, const PrintOptions& options)
        : page_(page), digits_(options.for_page(page)), styles_(styles(options.large)),
          large_(options.large), pen_(page, options.paper, first_fact(page, digits_)) {}

    SetDocument lay_out() {
        title();
        for (at_ = 0; at_ < page_.blocks.size(); ++at_)
            std::visit([this](const auto& block) { draw(block); }, page_.blocks[at_]);
        return pen_.finish();
    }

  private:
    void title() {
        const SetText text = pen_.type().wrapped(one_line(page_.title), styles_.title, pen_.width(),
                                                 most_title_lines);
        pen_.outline(page_.title);
        pen_.place(text, pen_.left(), pen_.y());
        pen_.down(text.height() + 3);
    }

    double line_height(const TextStyle& style) { return pen_.type().line("0", style).height(); }

    double heading_height(const std::string& heading) {
        return heading.empty() ? 0 : line_height(styles_.heading) + heading_gap;
    }
    void heading(const std::string& heading, double with_it) {
        if (heading.empty())
            return;
        pen_.need(heading_height(heading) + with_it);
        pen_.outline(heading);
        pen_.place(pen_.type().clipped(one_line(heading), styles_.heading, pen_.width()),
                   pen_.left(), pen_.y());
        pen_.down(heading_height(heading));
    }

    double height(const Facts& block) {
        const PageFacts facts(block, pen_.type(), styles_, digits_, pen_.width());
        return facts.empty() ? 0 : heading_height(block.heading) + facts.height() + section_gap;
    }
    void draw(const Facts& block) {
        const PageFacts facts(block, pen_.type(), styles_, digits_, pen_.width());
        if (facts.empty())
            return;
        heading(block.heading, std::min(facts.height(), pen_.whole_room() / 2));
        pen_.need(std::min(facts.height(), pen_.whole_room()));
        facts.draw(pen_);
        pen_.down(facts.height() + section_gap);
    }

    // What is drawn to scale.

    double height(const Ruler& block) {
        SetPage unseen;
        const double height =
            draw_ruler(block, pen_.type(), unseen, 0, 0, pen_.width(), styles_.ruler);
        return height + (height > 0 ? section_gap : 0);
    }
    /// One that is higher than a leaf is drawn in parts, each below the marks of the first line.
    void draw(const Ruler& block) {
        const double whole = height(block);
        if (whole > pen_.whole_room() && block.lines.size() > 2) {
            const auto half = static_cast<std::ptrdiff_t>(block.lines.size() + 1) / 2;
            Ruler upper = block, lower = block;
            upper.lines.erase(upper.lines.begin() + half, upper.lines.end());
            lower.lines.erase(lower.lines.begin() + 1, lower.lines.begin() + half);
            draw(upper);
            return draw(lower);
        }
        pen_.need(whole);
        draw_ruler(block, pen_.type(), pen_.sheet(), pen_.left(), pen_.y(), pen_.width(),
                   styles_.ruler);
        pen_.down(whole);
    }
    double height(const Drawing& block) {
        return heading_height(block.heading) + drawing_height(block, pen_) + section_gap;
    }
    void draw(const Drawing& block) {
        heading(block.heading, std::min(drawing_height(block, pen_), pen_.whole_room() - 40));
        draw_drawing(with_figures(block, digits_), pen_);
        pen_.down(section_gap);
    }

    double height(const NewLeaf&) { return 0; }
    void draw(const NewLeaf& block) {
        first_table_ = true;
        if (pen_.on_new_leaf())
            return;
        pen_.new_page();
        heading(block.title, 0);
    }

    // Tables.

    double height(const Table& block) {
        if (block.drawn)
            return 0;
        const PageTable table(shown(block, digits_), pen_.type());
        if (table.empty())
            return 0;
        return heading_height(block.heading)
               + table.height(table.plan(styles_.following_table, pen_.width())) + section_gap;
    }
    /// Height of the blocks behind this one on its leaf, with or without the words at the end.
    double height_after(bool with_words) {
        double sum = 0;
        for (std::size_t i = at_ + 1; i < page_.blocks.size(); ++i)
            if (std::holds_alternative<NewLeaf>(page_.blocks[i]))
                break;
            else if (with_words || !std::holds_alternative<Paragraphs>(page_.blocks[i]))
                sum += std::visit([this](const auto& b) { return height(b); }, page_.blocks[i]);
        return sum;
    }
    /// The largest type with which the whole page stays on this leaf, else all but the words, else
    /// one that reads well.
    TablePlan best_plan(const PageTable& table) {
        const bool stand = table.table().rows.size() <= stand_rows;
        const std::vector<double>& sizes = stand ? styles_.stand : styles_.longer;
        for (const bool with_words : {true, false}) {
            const double limit = pen_.room() - height_after(with_words);
            for (const double size : sizes) {
                if (!large_ && size > page_.largest_type)
                    continue;
                const TablePlan plan = table.plan(size, pen_.width());
                if (table.height(plan) + section_gap <= limit)
                    return plan;
            }
        }
        return table.plan(stand ? styles_.stand_reading : styles_.longer_reading, pen_.width());
    }
    void draw(const Table& block) {
        if (block.drawn)
            return;
        PageTable table(shown(block, digits_), pen_.type());
        if (table.empty())
            return;
        TablePlan plan = table.plan(styles_.following_table, pen_.width());
        if (std::exchange(first_table_, false)) {
            heading(block.heading,
                    table.head_height(styles_.stand[0]) + 2 * table.row_height(styles_.stand[0]));
            plan = best_plan(table);
        } else {
            const double whole = table.height(plan) + heading_height(block.heading);
            pen_.need(std::min(whole, pen_.whole_room()));
            heading(block.heading, 0);
        }
        rows(table, plan);
    }
    void rows(PageTable& table, const TablePlan& plan) {
        for (const ColumnBlock& columns : plan.blocks) {
            pen_.need(table.head_height(plan.size) + 2 * table.row_height(plan.size));
            heads(table, plan, columns);
            for (std::size_t row = 0; row < table.table().rows.size(); ++row) {
                if (table.draw_row(plan, columns, row, nullptr, 0, 0) > pen_.room()) {
                    pen_.new_page();
                    heads(table, plan, columns);
                }
                pen_.down(table.draw_row(plan, columns, row, &pen_.sheet(), pen_.left(), pen_.y()));
                pen_.rule(pen_.y(), block_width(plan, columns), 0.3, rule_grey);
            }
            pen_.down(section_gap);
        }
    }
    void heads(PageTable& table, const TablePlan& plan, const ColumnBlock& columns) {
        table.draw_head(plan, columns, pen_.sheet(), pen_.left(), pen_.y());
        pen_.down(table.head_height(plan.size));
        pen_.rule(pen_.y(), block_width(plan, columns), 0.8);
    }

    // Words: a paragraph stays together where a page holds it.

    double height(const Paragraphs& block) {
        double sum = heading_height(block.heading);
        for (const Paragraph& p : block.paragraphs) {
            const TextStyle style = styles_.of(p.role);
            const auto lines = pen_.type().lines(text_of(p), style, pen_.width()).size();
            sum += line_height(style) * static_cast<double>(lines) + note_gap;
        }
        return sum;
    }
    void draw(const Paragraphs& block) {
        heading(block.heading, line_height(styles_.of(Role::plain)));
        for (const Paragraph& p : block.paragraphs)
            paragraph(text_of(p), styles_.of(p.role));
    }
    void paragraph(const std::string& text, const TextStyle& style) {
        const double line = line_height(style);
        const auto lines = pen_.type().lines(text, style, pen_.width());
        const double whole = line * static_cast<double>(lines.size());
        pen_.need(whole <= pen_.whole_room() ? whole : line);
        for (const std::string& words : lines) {
            const SetText set = pen_.type().clipped(words, style, pen_.width() + 1);
            pen_.need(set.height());
            pen_.place(set, pen_.left(), pen_.y());
            pen_.down(set.height());
        }
        pen_.down(note_gap);
    }

    const Page& page_;
    Digits digits_;
    Styles styles_;
    bool large_;
    PagePen pen_;
    std::size_t at_ = 0;
    bool first_table_ = true;
};

} // namespace

SetDocument lay_out(const Page& page, const PrintOptions& options) {
    if (options.for_page(page).people > limits::printed_digits)
        throw error(message::too_fine_for_paper, "", {}, limits::printed_digits);
    return Pager(page, options).lay_out();
}

} // namespace sectio::page
