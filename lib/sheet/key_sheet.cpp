#include <sectio/sheet/key_sheet.hpp>
#include <sectio/sheet/page_table.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace sectio {

namespace {

constexpr TextStyle title_style{20, true}, fact_style{10}, running_style{8}, note_style{9};
constexpr std::array sizes{16.0, 14.0, 12.0, 11.0};
constexpr int most_lines = 3;
constexpr double gap = 10, footer_height = 16, rule_grey = 0.65;

Table table_of(const KeySheet& sheet) {
    const bool counts_from = std::any_of(sheet.rows.begin(), sheet.rows.end(),
                                         [](const KeyRow& row) { return !row.from.empty(); });
    Table table;
    table.columns = {{"", "Note", ColumnKind::note, 0, true},
                     {"", "Cents", ColumnKind::figure, 0, true}};
    if (counts_from)
        table.columns.push_back({"", "from", ColumnKind::note, 0, false});
    table.columns.push_back({"", "Times", ColumnKind::figure, 0, false});
    for (const KeyRow& row : sheet.rows)
        table.rows.push_back(counts_from
                                 ? std::vector{row.written, row.deviation, row.from, row.count}
                                 : std::vector{row.written, row.deviation, row.count});
    return table;
}

class KeyPager {
  public:
    KeyPager(const KeySheet& sheet, const Paper& paper)
        : sheet_(sheet), paper_(paper), table_(table_of(sheet), type_) {
        drawing_.width = paper.width;
        drawing_.height = paper.height;
        drawing_.title = sheet.title;
        drawing_.date = sheet.date;
    }

    Drawing draw() {
        new_page();
        head();
        table(best_plan());
        for (const std::string& note : sheet_.notes)
            paragraph(note, note_style);
        for (std::size_t i = 0; i < drawing_.pages.size(); ++i)
            footer(drawing_.pages[i], i + 1);
        return std::move(drawing_);
    }

  private:
    double bottom() const { return paper_.height - paper_.bottom - footer_height; }

    void place(const SetText& text, double x, double y) {
        drawing_.pages.back().texts.push_back({x, y, text});
    }

    void new_page() {
        drawing_.pages.emplace_back();
        y_ = paper_.top;
    }

    void paragraph(const std::string& text, const TextStyle& style) {
        const SetText set = type_.wrapped(text, style, paper_.text_width(), most_lines);
        if (y_ + set.height() > bottom())
            new_page();
        place(set, paper_.left, y_);
        y_ += set.height();
    }

    void head() {
        paragraph(sheet_.title, title_style);
        y_ += gap / 3;
        for (const std::string& fact : sheet_.facts)
            paragraph(fact, fact_style);
        y_ += gap;
    }

    /// The largest type with which the table stays on the first page, else one that reads well.
    TablePlan best_plan() const {
        for (const double size : sizes) {
            const TablePlan plan = table_.plan(size, paper_.text_width());
            if (y_ + table_.height(plan) <= bottom())
                return plan;
        }
        return table_.plan(sizes.back(), paper_.text_width());
    }

    void table(const TablePlan& plan) {
        for (const Block& block : plan.blocks) {
            heads(plan, block);
            for (std::size_t row = 0; row < sheet_.rows.size(); ++row) {
                if (y_ + table_.draw_row(plan, block, row, nullptr, 0, 0) > bottom()) {
                    new_page();
                    heads(plan, block);
                }
                y_ += table_.draw_row(plan, block, row, &drawing_.pages.back(), paper_.left, y_);
                rule(block_width(plan, block), 0.3, rule_grey);
            }
            y_ += gap;
        }
    }

    void heads(const TablePlan& plan, const Block& block) {
        table_.draw_head(plan, block, drawing_.pages.back(), paper_.left, y_);
        y_ += table_.head_height(plan.size);
        rule(block_width(plan, block), 0.8, 0);
    }

    void rule(double width, double thickness, double grey) {
        drawing_.pages.back().strokes.push_back(
            {paper_.left, y_, paper_.left + width, y_, thickness, grey});
    }

    void footer(DrawnPage& page, std::size_t number) {
        const double y = paper_.height - paper_.bottom - type_.line("0", running_style).height();
        const std::string text =
            fmt::format("Sectio{}{}, page {} of {}", sheet_.date.empty() ? "" : ", ", sheet_.date,
                        number, drawing_.pages.size());
        page.texts.push_back(
            {paper_.left, y, type_.clipped(text, running_style, paper_.text_width())});
    }

    const KeySheet& sheet_;
    Paper paper_;
    Typesetter type_;
    PageTable table_;
    Drawing drawing_;
    double y_ = 0;
};

} // namespace

std::string print_pdf(const KeySheet& sheet, const Paper& paper) {
    return as_pdf(KeyPager(sheet, paper).draw());
}

} // namespace sectio
