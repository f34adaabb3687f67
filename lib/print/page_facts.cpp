#include <sectio/page/numbers.hpp>
#include <sectio/print/page_facts.hpp>

#include <algorithm>

namespace sectio::page {

namespace {

constexpr double fact_gap = 18, value_gap = 5, line_gap = 1;
constexpr int most_value_lines = 12;

} // namespace

PageFacts::PageFacts(const Facts& block, Typesetter& type, const Styles& styles,
                     const Digits& digits, double width)
    : width_(width), line_(type.line("0", styles.value).height() + line_gap),
      baseline_(type.line("0", styles.value).baseline()) {
    for (const Fact& fact : block.facts)
        if (!fact.label.empty() && !fact.cell.empty())
            add(fact, for_people(fact.cell, digits), type, styles);
    height_ = facts_.empty() ? 0 : y_ + line_;
}

void PageFacts::add(const Fact& fact, const std::string& text, Typesetter& type,
                    const Styles& styles) {
    const TypesetText label = type.line(one_line(fact.label), styles.label);
    TypesetText value = type.line(text, styles.value);
    if (x_ > 0 && x_ + label.width() + value_gap + value.width() > width_)
        x_ = 0, y_ += line_;
    const double value_x = x_ + label.width() + value_gap;
    if (value_x + value.width() > width_)
        value = type.wrapped(text, styles.value, width_ - value_x, most_value_lines);
    facts_.push_back({label, value, x_, y_});
    x_ = value_x + value.width() + fact_gap;
    y_ += std::max(0.0, value.height() - line_);
}

void PageFacts::draw(PagePen& pen) const {
    for (const Placed& f : facts_) {
        const double y = pen.y() + f.line;
        pen.place(f.label, pen.left() + f.x, y + baseline_ - f.label.baseline());
        pen.place(f.value, pen.left() + f.x + f.label.width() + value_gap, y);
    }
}

} // namespace sectio::page
