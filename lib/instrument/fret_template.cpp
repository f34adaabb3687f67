#include <sectio/base/argument.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/instrument/fret_page.hpp>
#include <sectio/instrument/fret_template.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

using page::Drawing;

// Measures of a part in mm. It fits the text of an A4 and of a Letter page with the narrower of
// both: 172 by 230 mm.
constexpr double part_width = 170, head = 20, reach = 200, margin = 10;
constexpr double neck_left = 60, neck_right = 105;
constexpr double check_x = 10, check_length = 100;
constexpr double words_height = 3.2; // lines that are closer have their words apart
constexpr double hair = 0.15, line = 0.3, joint_dash = 2;

/// One part being drawn. Places on the string become heights on the paper, unscaled.
class Part {
  public:
    Part(const TemplatePart& part, std::size_t number, std::size_t of) : part_(part) {
        drawing_.true_size = true;
        drawing_.width = part_width;
        drawing_.height = head + std::max(part.end - part.begin + 4, 20 + check_length + 8);
        drawing_.heading = fmt::format("Template, part {} of {}", number + 1, of);
        drawing_.description = "lines across the strings where nut, frets and bridge lie, at 1:1";
        label(0, 4,
              "1:1, the nut's end at the top. Measure the 100 mm line with a steel ruler:", 8);
        label(0, 8, "cut nothing unless it is 100 mm. Print at 100 %, without fitting to the page.",
              8);
        draw_check_line();
    }

    /// A line across all strings, from the first to the last and a little beyond, with words on
    /// both sides.
    void across(const NeckPoint& from, const NeckPoint& to, const std::string& left,
                const std::string& right, double thick, double dash = 0) {
        constexpr double beyond = 4;
        const double length = std::hypot(to.x - from.x, to.y - from.y);
        const double x = beyond * (to.x - from.x) / length, y = beyond * (to.y - from.y) / length;
        stroke({from.x - x, from.y - y}, {to.x + x, to.y + y}, thick, 0, dash);
        if (holds(from.y))
            label(from.x - (left_.is_outer(from.y) ? 16 : 6), at(from.y) + 1, left, 8, true,
                  Drawing::Anchor::right);
        if (holds(to.y))
            label(to.x + (right_.is_outer(to.y) ? 36 : 6), at(to.y) + 1, right, 8);
    }

    void dot(const NeckPoint& place) {
        if (holds(place.y))
            drawing_.dots.push_back({place.x, at(place.y), 0.7, true});
    }

    void string(const NeckPoint& nut, const NeckPoint& saddle) {
        stroke(nut, saddle, hair, 0.5, 0);
    }

    /// What the words beside the lines say.
    void explain(const std::string& words) { label(0, 12, words, 8); }

    /// A line at which this part and its neighbour are laid together, with a cross at both ends.
    void joint(double place, std::size_t number, const char* which) {
        const double y = at(place);
        drawing_.strokes.push_back({30, y, part_width, y, hair, 0.4, joint_dash});
        for (const double x : {34.0, part_width - 4})
            drawing_.strokes.push_back({x, y - 3, x, y + 3, hair, 0, 0});
        label(part_width - 6, y - 1, fmt::format("join {}{}", number, which), 7, false,
              Drawing::Anchor::right);
    }

    Drawing take() { return std::move(drawing_); }

  private:
    /// Where lines are close, the words of every other one stand farther out.
    struct Words {
        double last = -1e9; ///< where the line before this stands
        bool outer = false;

        bool is_outer(double y) {
            outer = y - last < words_height && !outer;
            last = y;
            return outer;
        }
    };

    bool holds(double place) const { return place >= part_.begin && place <= part_.end; }
    double at(double place) const { return head + place - part_.begin; }

    /// What this part has of a line.
    void stroke(const NeckPoint& from, const NeckPoint& to, double thick, double grey,
                double dash) {
        if (std::max(from.y, to.y) < part_.begin || std::min(from.y, to.y) > part_.end)
            return;
        const auto held = [&](const NeckPoint& end) {
            const double y = std::clamp(end.y, part_.begin, part_.end);
            const double x =
                y == end.y ? end.x : from.x + (y - from.y) / (to.y - from.y) * (to.x - from.x);
            return NeckPoint{x, at(y)};
        };
        const NeckPoint a = held(from), b = held(to);
        drawing_.strokes.push_back({a.x, a.y, b.x, b.y, thick, grey, dash});
    }

    void label(double x, double y, std::string text, double points, bool bold = false,
               Drawing::Anchor anchor = Drawing::Anchor::left) {
        if (!text.empty())
            drawing_.labels.push_back({x, y, std::move(text), points, anchor, bold});
    }

    void draw_check_line() {
        const double top = head + 20;
        drawing_.strokes.push_back({check_x, top, check_x, top + check_length, line, 0, 0});
        for (int mm = 0; mm <= 100; mm += 10) {
            const double half = mm % 100 == 0 ? 4 : 1.5;
            drawing_.strokes.push_back({check_x - half, top + mm, check_x + half, top + mm,
                                        mm % 100 == 0 ? line : hair, 0, 0});
        }
        label(check_x, top - 3, "0 mm", 8, true, Drawing::Anchor::middle);
        label(check_x, top + check_length + 5, "100 mm", 8, true, Drawing::Anchor::middle);
    }

    TemplatePart part_;
    Drawing drawing_;
    Words left_, right_;
};

/// Strings spread evenly over the neck, the first at the left.
double share_of(std::size_t index, std::size_t count) {
    return count == 1 ? 0.5 : static_cast<double>(index) / static_cast<double>(count - 1);
}

/// What all parts of a template are drawn from.
struct Template {
    const FretPlan& plan;
    const Fretboard& board;
    const std::optional<NeckShape>& shape;
    DrawnNeck neck;

    bool slanted() const { return shape && shape->slanted(); }
    const Length& last_length() const { return shape ? shape->last : board.length; }
    double fret(std::size_t number) const {
        return place_of(board.frets[number], board.length).estimate() / in_mm(board.length);
    }
    double across(std::size_t string) const { return share_of(string, board.strings.size()); }
    const Length& compensation(std::size_t string) const {
        return plan.strings[board.strings[string]].compensation;
    }
    bool has_one_saddle() const {
        return std::all_of(board.strings.begin(), board.strings.end(), [&](std::size_t i) {
            return plan.strings[i].compensation == compensation(0);
        });
    }
    NeckPoint on_saddle(double across, const Length& compensation) const {
        const auto [first, last, added] =
            std::array{in_mm(board.length), in_mm(last_length()), in_mm(compensation)};
        return neck.at(across, 1 + added / (first + across * (last - first)));
    }
    NeckPoint saddle_of(std::size_t string) const {
        return on_saddle(across(string), compensation(string));
    }
    double end() const {
        double end = neck.end(1);
        for (std::size_t i = 0; i < board.strings.size(); ++i)
            end = std::max(end, saddle_of(i).y);
        return end;
    }
};

DrawnNeck drawn(const Fretboard& board, const std::optional<NeckShape>& shape) {
    constexpr double middle = 75;
    return shape ? DrawnNeck(*shape, middle) : DrawnNeck(board.length, neck_left, neck_right);
}

/// The place on the first string, and on the last where that is another; else the names where there
/// is room for all of them, of which the table has all.
std::string words_beside(const Template& t, std::size_t number) {
    const PlannedFret& fret = t.board.frets[number];
    const auto place = [&](const Length& length) {
        return place_of(fret, length).millimetres().decimal(bench_digits);
    };
    if (t.slanted())
        return place(t.board.length) + " / " + place(t.last_length());
    const auto near = [&](std::size_t a, std::size_t b) {
        return b < t.board.frets.size()
               && t.neck.at(1, t.fret(b)).y - t.neck.at(1, t.fret(a)).y < words_height;
    };
    const bool crowded = near(number, number + 1) || (number > 0 && near(number - 1, number));
    const std::string names = names_of(t.plan, fret);
    return (character_count(names) <= (crowded ? 9 : 14) ? names + "   " : "")
           + place(t.board.length) + " mm";
}

void draw_fret(Part& part, const Template& t, std::size_t number) {
    const double along = t.fret(number);
    part.across(t.neck.at(0, along), t.neck.at(1, along), fmt::to_string(number + 1),
                words_beside(t, number), line);
    for (std::size_t i = 0; i < t.board.strings.size(); ++i)
        for (const Stop& stop : t.board.frets[number].stops)
            if (stop.string == t.board.strings[i])
                part.dot(t.neck.at(t.across(i), along));
}

/// The nearest place to `from` that strikes no fret or its words through, on the side of `way`,
/// within what two parts have in common.
double clear_of_frets(const Template& t, double from, double way) {
    constexpr double room = 3, step = 0.5;
    const auto strikes = [&](double place) {
        for (std::size_t i = 0; i < t.board.frets.size(); ++i) {
            const auto [low, high] =
                std::minmax({t.neck.at(0, t.fret(i)).y, t.neck.at(1, t.fret(i)).y});
            if (place > low - room && place < high + room)
                return true;
        }
        return false;
    };
    for (double moved = 0; moved < template_overlap / 2; moved += step)
        if (!strikes(from + way * moved))
            return from + way * moved;
    return from;
}

/// A mark on each string where its own saddle stands.
void draw_saddles(Part& part, const Template& t) {
    for (std::size_t i = 0; i < t.board.strings.size(); ++i) {
        const NeckPoint at = t.saddle_of(i);
        part.across({at.x - hair, at.y}, {at.x + hair, at.y}, "",
                    i + 1 < t.board.strings.size() ? "" : "saddle, string by string", line);
    }
}

void draw_bridge(Part& part, const Template& t) {
    const auto both = [&](const Length& first, const Length& last) {
        return t.slanted() ? first.text() + " / " + last.text() : first.text();
    };
    part.across(t.neck.at(0, 1), t.neck.at(1, 1), "bridge",
                both(t.board.length, t.last_length()) + " nominal", 2 * line);
    const Length& c = t.compensation(0);
    if (!t.has_one_saddle())
        draw_saddles(part, t);
    else if (c != Length())
        part.across(t.on_saddle(0, c), t.on_saddle(1, c), "",
                    "saddle " + both(t.board.length + c, t.last_length() + c), line, joint_dash);
}

Drawing draw_part(const Template& t, const std::vector<TemplatePart>& parts, std::size_t number) {
    Part part(parts[number], number, parts.size());
    if (t.slanted())
        part.explain(fmt::format("Beside each fret: mm from the nut along {} / along {}.",
                                 t.plan.strings[t.board.strings.front()].name,
                                 t.plan.strings[t.board.strings.back()].name));
    for (std::size_t i = 0; i < t.board.strings.size(); ++i)
        part.string(t.neck.at(t.across(i), 0), t.saddle_of(i));
    part.across(t.neck.at(0, 0), t.neck.at(1, 0), "nut", "0 mm", 2 * line);
    for (std::size_t fret = 0; fret < t.board.frets.size(); ++fret)
        draw_fret(part, t, fret);
    draw_bridge(part, t);
    for (const std::size_t joint : {number, number + 1})
        if (joint > 0 && joint < parts.size()) {
            part.joint(clear_of_frets(t, parts[joint].begin, 1), joint, "a");
            part.joint(clear_of_frets(t, parts[joint - 1].end, -1), joint, "b");
        }
    return part.take();
}

} // namespace

std::vector<TemplatePart> template_parts(double length) {
    check_argument(std::isfinite(length) && length <= longest_neck_mm, "the length of a neck",
                   fmt::format("at most {} mm", longest_neck_mm));
    const double begin = -margin, whole = length + 2 * margin;
    const double step = reach - template_overlap;
    const double count = std::max(1.0, std::ceil((whole - template_overlap) / step));
    std::vector<TemplatePart> parts;
    for (double i = 0; i < count; ++i)
        parts.push_back({begin + i * step, std::min(begin + i * step + reach, begin + whole)});
    return parts;
}

std::vector<Drawing> template_drawings(const FretPlan& plan, const Fretboard& board,
                                       const std::optional<NeckShape>& neck) {
    check(plan, board);
    const Template t{plan, board, neck, drawn(board, neck)};
    auto parts = template_parts(t.end());
    while (parts.size() > 1 && parts[parts.size() - 2].end > t.end()) // nothing but margin
        parts.pop_back();
    std::vector<Drawing> drawings;
    for (std::size_t number = 0; number < parts.size(); ++number)
        drawings.push_back(draw_part(t, parts, number));
    return drawings;
}

} // namespace sectio
