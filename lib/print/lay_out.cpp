#include <sectio/base/limits.hpp>
#include <sectio/page/numbers.hpp>
#include <sectio/print/draw.hpp>
#include <sectio/print/fuller_pages.hpp>
#include <sectio/print/laid_table.hpp>
#include <sectio/print/lay_out.hpp>
#include <sectio/print/messages.hpp>
#include <sectio/print/page_facts.hpp>
#include <sectio/print/page_pen.hpp>
#include <sectio/print/page_words.hpp>
#include <sectio/print/ruler.hpp>
#include <sectio/print/styles.hpp>

#include <algorithm>
#include <map>
#include <utility>

namespace sectio::page {

namespace {

constexpr double heading_gap = 3;
/// Above a part that begins below another.
constexpr double part_gap = 10;
/// Of drawings that are not of true size: that of A4's text.
constexpr double usual_width = points_of_mm(172);
constexpr std::size_t few_title_lines = 3;
constexpr int most_title_lines = 12, most_heading_lines = 4;

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
    /// With a new page before each of the blocks `breaks`.
    Pager(const Page& page, const PrintOptions& options, const std::set<std::size_t>& breaks)
        : page_(page), breaks_(breaks), digits_(options.for_page(page)),
          styles_(styles(options.large)), pen_(page, options.paper, first_fact(page, digits_)) {
        styles_.drawing.most_scale =
            std::max(styles_.drawing.most_scale, pen_.width() / usual_width);
    }

    LaidPages lay_out() {
        LaidPages laid;
        title();
        for (at_ = 0; at_ < page_.blocks.size(); ++at_) {
            laid.begun.push_back(pen_.page());
            if (breaks_.contains(at_) && !pen_.on_new_page())
                pen_.new_page();
            std::visit([this](const auto& block) { draw(block); }, page_.blocks[at_]);
        }
        laid.document = pen_.finish(), laid.filled = pen_.filled();
        return laid;
    }

  private:
    /// A long one is made smaller before it takes many lines.
    void title() {
        const std::string words = one_line(page_.title);
        const TextStyle style = pen_.type().shrunk(words, styles_.title, pen_.width(),
                                                   few_title_lines, styles_.least_title);
        const TypesetText text = pen_.type().wrapped(words, style, pen_.width(), most_title_lines);
        pen_.outline(words);
        pen_.place(text, pen_.left(), pen_.y());
        pen_.down(text.height() + 3);
    }

    double line_height(const TextStyle& style) { return pen_.type().line("0", style).height(); }

    TypesetText set_heading(const std::string& heading) {
        return pen_.type().wrapped(one_line(heading), styles_.heading, pen_.width(),
                                   most_heading_lines);
    }
    double heading_height(const std::string& heading) {
        return heading.empty() ? 0 : set_heading(heading).height() + heading_gap;
    }
    void heading(const std::string& heading, double with_it) {
        if (heading.empty())
            return;
        pen_.need(heading_height(heading) + with_it);
        pen_.outline(heading);
        pen_.place(set_heading(heading), pen_.left(), pen_.y());
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

    RulerType ruler_type() const { return {styles_.ruler, styles_.least}; }

    double height(const Ruler& block) {
        TypesetPage unseen;
        const double height =
            draw_ruler(block, pen_.type(), unseen, 0, 0, pen_.width(), ruler_type());
        return height + (height > 0 ? section_gap : 0);
    }
    /// One that is higher than a page is drawn in parts, each below the marks of the first line.
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
                   ruler_type());
        pen_.down(whole);
    }
    double height(const Drawing& block) {
        return heading_height(block.heading) + drawing_height(block, pen_, styles_.drawing)
               + section_gap;
    }
    void draw(const Drawing& block) {
        heading(block.heading,
                std::min(drawing_height(block, pen_, styles_.drawing), pen_.whole_room() - 40));
        draw_drawing(with_figures(block, digits_), pen_, styles_.drawing);
        pen_.down(section_gap);
    }

    double height(const NewPage&) { return 0; }
    void draw(const NewPage& block) {
        first_table_ = true;
        end_column();
        if (!pen_.on_new_page()) {
            pen_.down(part_gap);
            if (!begins_here(heading_height(block.title) + part_height()))
                pen_.new_page();
        }
        heading(block.title, 0);
    }
    /// A part begins below the one before where all of it has room, in large type, or where it
    /// takes several pages anyhow and much of this one is left.
    bool begins_here(double part) const {
        constexpr double much = 0.4;
        return part <= pen_.room()
               || (part > pen_.whole_room() && pen_.room() > much * pen_.whole_room());
    }
    double part_height() {
        double sum = 0;
        bool first = true;
        for (const Block* block : rest_of_part()) {
            const auto* table = std::get_if<Table>(block);
            if (table && first && is_laid(*table)) {
                sum += heading_height(table->heading) + laid(*table).comfortable_height();
                first = false;
            } else {
                sum += std::visit([this](const auto& b) { return height(b); }, *block);
            }
        }
        return sum;
    }
    /// The blocks after this one up to the next part.
    std::vector<const Block*> rest_of_part() const {
        std::vector<const Block*> rest;
        for (std::size_t i = at_ + 1;
             i < page_.blocks.size() && !std::holds_alternative<NewPage>(page_.blocks[i]); ++i)
            rest.push_back(&page_.blocks[i]);
        return rest;
    }

    // Tables.

    LaidTable& laid(const Table& block) {
        auto found = tables_.find(&block);
        if (found == tables_.end())
            found =
                tables_
                    .try_emplace(&block, shown(block, digits_), pen_, styles_, page_.largest_type)
                    .first;
        return found->second;
    }
    bool is_laid(const Table& block) { return !block.drawn && !laid(block).empty(); }
    double height(const Table& block) {
        return is_laid(block)
                   ? heading_height(block.heading) + laid(block).height(laid(block).following())
                   : 0;
    }
    /// Height of the blocks after this one in its part, with or without the words at the end.
    double height_after(bool with_words) {
        double sum = 0;
        for (const Block* block : rest_of_part())
            if (with_words || !std::holds_alternative<Paragraphs>(*block))
                sum += std::visit([this](const auto& b) { return height(b); }, *block);
        return sum;
    }
    /// The largest type with which the whole part stays on this page, else all but the words, else
    /// the table alone, else one that reads well.
    TablePlan best_plan(LaidTable& table) {
        for (const double after : {height_after(true), height_after(false), 0.0})
            if (auto plan = table.fitting(pen_.room() - after))
                return *std::move(plan);
        return table.for_reading(pen_.room());
    }
    void draw(const Table& block) {
        if (!is_laid(block))
            return;
        LaidTable& table = laid(block);
        if (std::exchange(first_table_, false)) {
            heading(block.heading, table.least_height(table.preferred()));
            const TablePlan plan = best_plan(table);
            return drawn_beside_rest(table, plan.size) ? void() : table.draw(plan);
        }
        const TablePlan& plan = table.following();
        const double whole = table.height(plan) + heading_height(block.heading);
        pen_.need(std::min(whole, pen_.whole_room()));
        heading(block.heading, 0);
        table.draw(plan);
    }

    /// On lying paper: the table in larger type than `size`, and at its right the rest of its part,
    /// where both have room.
    bool drawn_beside_rest(LaidTable& table, double size) {
        constexpr double most_share = 0.62, gutter = 24;
        const double width = pen_.width(), room = pen_.room();
        const auto plan = width > pen_.whole_room() && !rest_of_part().empty()
                              ? table.column(most_share * width, room)
                              : std::nullopt;
        if (!plan || plan->size <= size)
            return false;
        const auto set_inset = [&](double inset) {
            pen_.inset(inset);
            for (const Block* block : rest_of_part())
                if (const auto* other = std::get_if<Table>(block))
                    tables_.erase(other);
        };
        const double inset = block_width(*plan, plan->blocks.front()) + gutter;
        set_inset(inset);
        const bool fits = height_after(true) <= room;
        set_inset(0);
        if (!fits)
            return false;
        const double top = pen_.y();
        table.draw(*plan);
        below_ = pen_.y();
        pen_.down(top - pen_.y());
        set_inset(inset);
        return true;
    }
    /// Goes on below what stands side by side.
    void end_column() {
        if (pen_.is_inset()) // else a new page has begun
            pen_.down(std::max(0.0, below_ - pen_.y()));
        pen_.inset(0);
    }

    double height(const Paragraphs& block) {
        return heading_height(block.heading) + words_height(block, pen_, styles_);
    }
    void draw(const Paragraphs& block) {
        heading(block.heading, line_height(styles_.of(Role::plain)));
        draw_words(block, pen_, styles_);
    }

    const Page& page_;
    const std::set<std::size_t>& breaks_;
    Digits digits_;
    Styles styles_;
    PagePen pen_;
    std::map<const Table*, LaidTable> tables_;
    std::size_t at_ = 0;
    bool first_table_ = true;
    double below_ = 0; ///< where a table ends that has the rest of its part beside it
};

} // namespace

TypesetDocument lay_out(const Page& page, const PrintOptions& options) {
    if (options.for_page(page).people > limits::printed_digits)
        throw error(message::too_fine_for_paper, "", {}, limits::printed_digits);
    return with_fuller_pages(page, [&](const std::set<std::size_t>& breaks) {
        return Pager(page, options, breaks).lay_out();
    });
}

} // namespace sectio::page
