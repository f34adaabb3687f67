#include <sectio/page/numbers.hpp>
#include <sectio/print/page_pen.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace sectio::page {

namespace {

constexpr TextStyle running_style{9};
constexpr double running_gap = 18, footer_height = 14, below_running = 7;

/// Made smaller before it takes several lines.
TypesetText set_running(Typesetter& type, const std::string& text, const TextStyle& style,
                        double width) {
    constexpr double least = 7;
    constexpr int most_lines = 6;
    return type.wrapped(text, type.shrunk(text, style, width, 1, least), width, most_lines);
}

} // namespace

PagePen::PagePen(const Page& page, const Paper& paper, const std::string& running)
    : paper_(paper), y_(paper.top), top_(paper.top) {
    document_.width = paper.width, document_.height = paper.height;
    document_.title = one_line(page.title), document_.date = page.date;
    document_.language = page.language;
    document_.pages.emplace_back();
    constexpr double share = 0.5;
    running_ = set_running(type_, running, running_style, width() * share);
    running_title_ = set_running(type_, one_line(page.title), {running_style.size, true},
                                 width() - running_.width() - running_gap);
    const double one = type_.line("0", running_style).height();
    running_height_ = std::max({one, running_.height(), running_title_.height()}) + below_running;
}

double PagePen::bottom() const {
    return paper_.height - paper_.bottom - footer_height;
}

double PagePen::whole_room() const {
    return bottom() - paper_.top - running_height_;
}

void PagePen::need(double height) {
    if (y_ + height > bottom())
        new_page();
}

void PagePen::new_page() {
    close_page();
    document_.pages.emplace_back();
    inset_ = 0;
    y_ = paper_.top;
    place(running_title_, left(), y_);
    place(running_, left() + width() - running_.width(), y_);
    rule(y_ + running_height_ - below_running + 1, width(), 0.5);
    y_ += running_height_;
    top_ = y_;
}

void PagePen::outline(const std::string& heading) {
    document_.outline.push_back({one_line(heading), document_.pages.size(), y_});
}

void PagePen::rule(double y, double width, double thickness, double grey) {
    sheet().strokes.push_back({left(), y, left() + width, y, thickness, grey});
}

TypesetDocument PagePen::finish() {
    close_page();
    for (std::size_t i = 0; i < document_.pages.size(); ++i)
        footer(document_.pages[i], i + 1);
    return std::move(document_);
}

void PagePen::footer(TypesetPage& on, std::size_t number) {
    const double y = paper_.height - paper_.bottom - type_.line("0", running_style).height();
    const std::string date = document_.date.empty() ? "" : ", figures of " + document_.date;
    const TypesetText count =
        type_.line(fmt::format("page {} of {}", number, document_.pages.size()), running_style);
    on.texts.push_back(
        {left(), y,
         type_.clipped("Sectio" + date, running_style, width() - count.width() - running_gap)});
    on.texts.push_back({left() + width() - count.width(), y, count});
}

} // namespace sectio::page
