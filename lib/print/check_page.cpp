#include <sectio/base/argument.hpp>
#include <sectio/print/check_page.hpp>

#include <algorithm>
#include <cmath>

namespace sectio::page {

namespace {

bool are_numbers(std::initializer_list<double> values) {
    return std::all_of(values.begin(), values.end(), [](double v) { return std::isfinite(v); });
}

struct Checker {
    void operator()(const Table& table) const {
        check_argument(table.later_rows == 0
                           || (table.later.size() >= table.columns.size()
                               && std::all_of(table.later.begin(), table.later.end(),
                                              [](const auto& make) { return bool(make); })),
                       "rows made later", "a maker for each column");
    }

    void operator()(const Ruler& ruler) const {
        bool numbers = true;
        for (const Ruler::Mark& mark : ruler.marks)
            numbers = numbers && std::isfinite(mark.place);
        for (const Ruler::Line& line : ruler.lines) {
            numbers = numbers && std::isfinite(line.step);
            for (const double place : line.places)
                numbers = numbers && std::isfinite(place);
        }
        check_argument(numbers, "places on a ruler", "finite numbers");
    }

    void operator()(const Drawing& drawing) const {
        constexpr double longest_mm = 1'000'000;
        check_argument(drawing.width >= 0 && drawing.width <= longest_mm && drawing.height >= 0
                           && drawing.height <= longest_mm,
                       "the size of a drawing", "from 0 to 1 km");
        constexpr double largest_mm2 = 1e9; // some 20 000 pages
        check_argument(!drawing.true_size || drawing.width * drawing.height <= largest_mm2,
                       "a drawing of true size", "of at most 1000 square metres");
        bool numbers = true;
        for (const auto& s : drawing.strokes)
            numbers = numbers && are_numbers({s.x1, s.y1, s.x2, s.y2, s.width, s.grey, s.dash});
        for (const auto& s : drawing.dots)
            numbers = numbers && are_numbers({s.x, s.y, s.radius});
        for (const auto& label : drawing.labels)
            numbers = numbers && are_numbers({label.x, label.y}) && is_type(label.points);
        check_argument(numbers, "what is drawn",
                       "given by finite numbers, and type above 0 points");
    }

    template <typename Other>
    void operator()(const Other&) const {}

    static bool is_type(double points) {
        constexpr double largest = 1000;
        return points > 0 && points <= largest;
    }
};

/// An inch both ways is left for what is printed.
bool has_room(const Paper& paper) {
    constexpr double inch = 72, largest = 200 * inch;
    return paper.text_width() >= inch && paper.height - paper.top - paper.bottom >= inch
           && paper.width <= largest && paper.height <= largest;
}

} // namespace

void check(const Page& page, const PrintOptions& options) {
    check_digits(page.digits);
    check_argument(Checker::is_type(page.largest_type), "the largest type",
                   "above 0 points and at most 1000");
    check_argument(has_room(options.paper), "paper",
                   "large enough for an inch of text, and at most 200 inches");
    for (const Block& block : page.blocks)
        std::visit(Checker(), block);
}

} // namespace sectio::page
