#include <sectio/print/draw.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace sectio::page {

namespace {

/// What two neighbouring pages of a drawing of true size share.
constexpr double overlap = points_of_mm(10);
constexpr TextStyle joint_style{8};
constexpr double joint_grey = 0.4, joint_dash = 3;

/// The part of a drawing that a page shows, in points of the drawing.
struct Window {
    double x1, y1, x2, y2;
    bool has(double x, double y) const { return x >= x1 && x <= x2 && y >= y1 && y <= y2; }
};

/// The part of a stroke within the window (Y.-D. Liang, B. Barsky, ACM Trans. Graph. 3, 1984).
std::optional<Stroke> clipped(Stroke s, const Window& w) {
    const double dx = s.x2 - s.x1, dy = s.y2 - s.y1;
    double begin = 0, end = 1;
    const auto cut = [&](double way, double room) {
        if (way == 0)
            return room >= 0;
        const double t = room / way;
        way < 0 ? begin = std::max(begin, t) : end = std::min(end, t);
        return true;
    };
    if (!cut(-dx, s.x1 - w.x1) || !cut(dx, w.x2 - s.x1) || !cut(-dy, s.y1 - w.y1)
        || !cut(dy, w.y2 - s.y1) || begin > end)
        return std::nullopt;
    const double x = s.x1, y = s.y1;
    s.x1 = x + begin * dx, s.y1 = y + begin * dy;
    s.x2 = x + end * dx, s.y2 = y + end * dy;
    return s;
}

double anchored(Drawing::Anchor anchor, double width) {
    return anchor == Drawing::Anchor::left     ? 0
           : anchor == Drawing::Anchor::middle ? width / 2
                                               : width;
}

/// Lines of a label that is to fit a box, and their style.
struct FittedLabel {
    std::vector<std::string> lines;
    TextStyle style;
};

/// The largest type, from the label's own downwards, at which the text fits its box; the smallest
/// counts where none does. Down to `whole_words` of that size no word is broken. Without a box
/// there is one line.
FittedLabel fitted(const Drawing::Label& label, Typesetter& type, double scale, double least) {
    constexpr double step = 0.95, whole_words = 0.65;
    FittedLabel fit{{label.text}, {label.points * scale, label.bold, false, label.music}};
    if (label.most_width <= 0)
        return fit;
    const double width = points_of_mm(label.most_width) * scale;
    const double height = points_of_mm(label.most_height) * scale;
    const double smallest_whole = std::max(least, whole_words * fit.style.size);
    for (;; fit.style.size *= step) {
        const double line = type.line("0", fit.style).height();
        if (type.line(label.text, fit.style).width() <= width)
            return fit;
        fit.lines = type.lines(label.text, fit.style, width);
        const bool fits = line * static_cast<double>(fit.lines.size()) <= height
                          && (fit.style.size * step < smallest_whole
                              || type.widest_word(label.text, fit.style) <= width);
        if (fits || fit.style.size * step < least)
            return fit;
        fit.lines = {label.text};
    }
}

/// The label with its anchor at (x, y), where the baseline of its first line is.
void draw_label(const Drawing::Label& label, Typesetter& type, TypesetPage& page, double x,
                double y, double scale, double least) {
    const FittedLabel fit = fitted(label, type, scale, least);
    for (const std::string& words : fit.lines) {
        TypesetText text = type.line(words, fit.style);
        if (label.mirrored)
            text = text.mirrored();
        page.texts.push_back({x - anchored(label.anchor, text.width()), y - text.baseline(), text});
        y += text.height();
    }
}

/// Draws what the window shows, its upper left corner at (x, y).
void draw_window(const Drawing& drawing, Typesetter& type, TypesetPage& page, double x, double y,
                 double scale, const Window& window, double least) {
    const double unit = points_of_mm(1) * scale;
    for (const Drawing::Stroke& s : drawing.strokes) {
        const Stroke whole{s.x1 * unit,    s.y1 * unit, s.x2 * unit,  s.y2 * unit,
                           s.width * unit, s.grey,      s.dash * unit};
        if (auto part = clipped(whole, window)) {
            part->x1 += x - window.x1, part->x2 += x - window.x1;
            part->y1 += y - window.y1, part->y2 += y - window.y1;
            page.strokes.push_back(*part);
        }
    }
    for (const Drawing::Dot& s : drawing.dots)
        if (window.has(s.x * unit, s.y * unit))
            page.dots.push_back({x + s.x * unit - window.x1, y + s.y * unit - window.y1,
                                 s.radius * unit, s.filled});
    for (const Drawing::Label& label : drawing.labels) {
        if (window.has(label.x * unit, label.y * unit))
            draw_label(label, type, page, x + label.x * unit - window.x1,
                       y + label.y * unit - window.y1, scale, least);
    }
}

double fitting_scale(const Drawing& drawing, const PagePen& pen, const DrawingFit& fit) {
    return drawing.true_size
               ? 1
               : std::min(drawing_scale(drawing, pen.width(), fit.most_scale),
                          pen.whole_room() / points_of_mm(std::max(drawing.height, 1.0)));
}

/// Leaves beside one another, or below, that a length takes.
std::size_t pages(double length, double room) {
    return length <= room
               ? 1
               : 1 + static_cast<std::size_t>(std::ceil((length - room) / (room - overlap)));
}

/// The dashed line at which the next page is laid on, and its number at both.
void joint(PagePen& pen, double x, std::size_t number, double height) {
    pen.sheet().strokes.push_back({x, pen.y(), x, pen.y() + height, 0.4, joint_grey, joint_dash});
    const TypesetText text = pen.type().line(fmt::format("join {}", number), joint_style);
    pen.place(text, std::min(x + 2, pen.left() + pen.width() - text.width()), pen.y() + height);
}

void draw_pages(const Drawing& drawing, PagePen& pen) {
    const double width = points_of_mm(drawing.width), height = points_of_mm(drawing.height);
    const double room = pen.whole_room() - pen.type().line("0", joint_style).height();
    const std::size_t across = pages(width, pen.width()), down = pages(height, room);
    for (std::size_t row = 0; row < down; ++row)
        for (std::size_t column = 0; column < across; ++column) {
            const double x = static_cast<double>(column) * (pen.width() - overlap);
            const double y = static_cast<double>(row) * (room - overlap);
            const double shown = std::min(room, height - y);
            pen.need(shown + pen.type().line("0", joint_style).height());
            draw_window(drawing, pen.type(), pen.sheet(), pen.left(), pen.y(), 1,
                        {x, y, x + pen.width(), y + room}, DrawingFit().least_type);
            if (column > 0)
                joint(pen, pen.left() + overlap, column, shown);
            if (column + 1 < across)
                joint(pen, pen.left() + pen.width(), column + 1, shown);
            pen.down(shown + pen.type().line("0", joint_style).height() + overlap / 2);
        }
}

} // namespace

Drawing with_figures(Drawing drawing, const Digits& digits) {
    for (Drawing::Label& label : drawing.labels)
        if (!label.value.empty())
            label.text = for_people(label.value, digits);
    return drawing;
}

double drawing_scale(const Drawing& drawing, double width, double most) {
    return drawing.true_size ? 1
                             : std::min(most, width / points_of_mm(std::max(drawing.width, 1.0)));
}

void draw_at(const Drawing& drawing, Typesetter& type, TypesetPage& page, double x, double y,
             double scale, const DrawingFit& fit) {
    constexpr double everywhere = 1e9;
    draw_window(drawing, type, page, x, y, scale, {0, 0, everywhere, everywhere}, fit.least_type);
}

double drawing_height(const Drawing& drawing, const PagePen& pen, const DrawingFit& fit) {
    return points_of_mm(drawing.height) * fitting_scale(drawing, pen, fit);
}

void draw_drawing(const Drawing& drawing, PagePen& pen, const DrawingFit& fit) {
    const double height = drawing_height(drawing, pen, fit);
    if (drawing.true_size
        && (points_of_mm(drawing.width) > pen.width() || height > pen.whole_room()))
        return draw_pages(drawing, pen);
    pen.need(height);
    draw_at(drawing, pen.type(), pen.sheet(), pen.left(), pen.y(), fitting_scale(drawing, pen, fit),
            fit);
    pen.down(height);
}

} // namespace sectio::page
