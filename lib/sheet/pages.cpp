#include <sectio/base/limits.hpp>
#include <sectio/sheet/messages.hpp>
#include <sectio/sheet/page_table.hpp>
#include <sectio/sheet/pages.hpp>
#include <sectio/sheet/ruler.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <span>

namespace sectio {

namespace {

constexpr TextStyle title_style{19, true};
constexpr TextStyle label_style{10, false, true};
constexpr TextStyle value_style{10.5, true};
constexpr TextStyle running_style{9};
constexpr TextStyle caution_style{9.5, true};
constexpr TextStyle note_style{8.5};
constexpr TextStyle source_style{8.5, false, true};

constexpr double section_gap = 11, fact_gap = 18, note_gap = 1.5;
constexpr double footer_height = 14, running_height = 20;
constexpr int most_title_lines = 3;
constexpr double rule_grey = 0.65;
/// Up to so many rows the type stays large; a longer table takes more pages.
constexpr std::size_t stand_rows = 25;
constexpr std::array stand_sizes{14.0, 13.0, 12.0, 11.5, 11.0, 10.5, 10.0, 9.5};
constexpr std::array long_sizes{10.0, 9.5};
constexpr double summary_size = 9.5;

/// Lays out one sheet.
class Pager {
  public:
    Pager(const Sheet& sheet, const Paper& paper) : sheet_(sheet), paper_(paper) {
        drawing_.width = paper.width, drawing_.height = paper.height;
        drawing_.title = sheet.title, drawing_.date = sheet.date;
        drawing_.pages.emplace_back();
        y_ = paper.top;
    }

    Drawing draw() {
        title();
        facts();
        y_ += section_gap;
        ruler();
        PageTable degrees(degree_table(sheet_), type_);
        table(degrees, best_plan(degrees));
        summary();
        texts();
        for (std::size_t i = 0; i < drawing_.pages.size(); ++i)
            footer(drawing_.pages[i], i + 1);
        return std::move(drawing_);
    }

  private:
    DrawnPage& page() { return drawing_.pages.back(); }
    double bottom() const { return paper_.height - paper_.bottom - footer_height; }
    void place(const SetText& text, double x, double y) { page().texts.push_back({x, y, text}); }
    void rule(double y, double width, double thickness, double grey = 0) {
        page().strokes.push_back({paper_.left, y, paper_.left + width, y, thickness, grey});
    }

    void new_page() {
        drawing_.pages.emplace_back();
        y_ = paper_.top;
        const std::string facts = sheet_.facts.empty() ? "" : "Tonic " + sheet_.facts[0].value;
        const SetText right = type_.line(facts, running_style);
        place(type_.clipped(sheet_.title, {running_style.size, true},
                            paper_.text_width() - right.width() - fact_gap),
              paper_.left, y_);
        place(right, paper_.left + paper_.text_width() - right.width(), y_);
        rule(y_ + right.height() + 1, paper_.text_width(), 0.5);
        y_ += running_height;
    }
    /// Begins a new page unless `height` fits on this one.
    void need(double height) {
        if (y_ + height > bottom())
            new_page();
    }

    void title() {
        const SetText text =
            type_.wrapped(sheet_.title, title_style, paper_.text_width(), most_title_lines);
        place(text, paper_.left, y_);
        y_ += text.height() + 3;
    }
    /// Labels and values one behind the other, as many on a line as there is room for.
    void facts() {
        double x = paper_.left;
        const double end = paper_.left + paper_.text_width();
        for (const SheetFact& fact : sheet_.facts) {
            const SetText label = type_.line(fact.label, label_style);
            SetText value = type_.line(fact.value, value_style);
            if (x > paper_.left && x + label.width() + 5 + value.width() > end)
                x = paper_.left, y_ += value_line();
            const double value_x = x + label.width() + 5;
            if (value_x + value.width() > end)
                value = type_.wrapped(fact.value, value_style, end - value_x, most_title_lines);
            place(label, x, y_ + type_.line("0", value_style).baseline() - label.baseline());
            place(value, value_x, y_);
            x = value_x + value.width() + fact_gap;
            y_ += std::max(0.0, value.height() - value_line());
        }
        y_ += value_line();
    }
    double value_line() { return type_.line("0", value_style).height() + 1; }

    void ruler() {
        const double height =
            draw_ruler(sheet_, type_, page(), paper_.left, y_, paper_.text_width());
        y_ += height + (height > 0 ? section_gap : 0);
    }

    /// The largest type with which the whole sheet stays on this page, else all but the notes, else
    /// one that reads well.
    TablePlan best_plan(const PageTable& degrees) {
        const bool stand = sheet_.rows.size() <= stand_rows;
        const std::span<const double> sizes =
            stand ? std::span<const double>(stand_sizes) : std::span<const double>(long_sizes);
        const double room = bottom() - y_ - summary_height();
        for (const double limit : {room - texts_height(), room})
            for (const double size : sizes) {
                const TablePlan plan = degrees.plan(size, paper_.text_width());
                if (degrees.height(plan) + section_gap <= limit)
                    return plan;
            }
        return degrees.plan(stand ? 10.5 : 9.5, paper_.text_width());
    }

    void table(PageTable& table, const TablePlan& plan) {
        for (const Block& block : plan.blocks) {
            const double head = table.head_height(plan.size);
            need(head + 2 * table.row_height(plan.size));
            heads(table, plan, block);
            for (std::size_t row = 0; row < table.table().rows.size(); ++row) {
                if (y_ + table.draw_row(plan, block, row, nullptr, 0, 0) > bottom()) {
                    new_page();
                    heads(table, plan, block);
                }
                y_ += table.draw_row(plan, block, row, &page(), paper_.left, y_);
                rule(y_, block_width(plan, block), 0.3, rule_grey);
            }
            y_ += section_gap;
        }
    }
    void heads(PageTable& table, const TablePlan& plan, const Block& block) {
        table.draw_head(plan, block, page(), paper_.left, y_);
        y_ += table.head_height(plan.size);
        rule(y_, block_width(plan, block), 0.8);
    }

    void summary() {
        if (sheet_.divisions.empty())
            return;
        PageTable errors(summary_table(sheet_), type_);
        const TablePlan plan = errors.plan(summary_size, paper_.text_width());
        need(std::min(errors.height(plan), bottom() - paper_.top - running_height));
        table(errors, plan);
    }

    /// Everything below the tables, in order.
    std::vector<std::pair<std::string, TextStyle>> paragraphs() const {
        std::vector<std::pair<std::string, TextStyle>> all;
        for (const std::string& caution : sheet_.cautions)
            all.emplace_back("Caution: " + caution, caution_style);
        for (const std::string& remark : sheet_.remarks)
            all.emplace_back(remark, note_style);
        for (const std::string& note : sheet_.notes)
            all.emplace_back(note, note_style);
        if (!sheet_.source.empty())
            all.emplace_back("Source: " + sheet_.source, source_style);
        return all;
    }
    /// A paragraph stays together where a page holds it.
    void texts() {
        for (const auto& [text, style] : paragraphs()) {
            const double line_height = type_.line("0", style).height();
            const auto lines = type_.lines(text, style, paper_.text_width());
            const double height = line_height * static_cast<double>(lines.size());
            need(height <= bottom() - paper_.top - running_height ? height : line_height);
            for (const std::string& words : lines) {
                const SetText line = type_.clipped(words, style, paper_.text_width() + 1);
                need(line.height());
                place(line, paper_.left, y_);
                y_ += line.height();
            }
            y_ += note_gap;
        }
    }
    double texts_height() {
        double height = 0;
        for (const auto& [text, style] : paragraphs()) {
            const double line = type_.line("0", style).height();
            const auto count = type_.lines(text, style, paper_.text_width()).size();
            height += line * static_cast<double>(count) + note_gap;
        }
        return height;
    }
    double summary_height() {
        if (sheet_.divisions.empty())
            return 0;
        const PageTable errors(summary_table(sheet_), type_);
        return errors.height(errors.plan(summary_size, paper_.text_width())) + section_gap;
    }

    void footer(DrawnPage& on, std::size_t number) {
        const double y = paper_.height - paper_.bottom - type_.line("0", running_style).height();
        const std::string date = sheet_.date.empty() ? "" : ", figures of " + sheet_.date;
        const SetText count =
            type_.line(fmt::format("page {} of {}", number, drawing_.pages.size()), running_style);
        on.texts.push_back({paper_.left, y,
                            type_.clipped("Sectio" + date, running_style,
                                          paper_.text_width() - count.width() - fact_gap)});
        on.texts.push_back({paper_.left + paper_.text_width() - count.width(), y, count});
    }

    const Sheet& sheet_;
    Paper paper_;
    Typesetter type_;
    Drawing drawing_;
    double y_ = 0;
};

} // namespace

Drawing lay_out(const Sheet& sheet, const Paper& paper) {
    if (sheet.digits > limits::printed_digits)
        throw error(message::too_fine_for_paper, "", {}, limits::printed_digits);
    return Pager(sheet, paper).draw();
}

Drawing ruler_drawing(const Sheet& sheet, double width) {
    Typesetter type;
    Drawing drawing{width, 1, sheet.title, sheet.date, {{}}};
    drawing.height = draw_ruler(sheet, type, drawing.pages.front(), 0, 0, width) + 1;
    return drawing;
}

} // namespace sectio
