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
constexpr double check_x = 18, check_length = 100;
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

    bool holds(double place) const { return place >= part_.begin && place <= part_.end; }

    /// A line across all strings with words on both sides; where lines are close, the words of
    /// every other one stand farther out.
    void across(double place, const std::string& left, const std::string& right, double thick,
                double dash = 0) {
        if (!holds(place))
            return;
        const double y = at(place);
        outer_ = y - last_ < words_height && !outer_;
        last_ = y;
        const double out = outer_ ? 16 : 6;
        drawing_.strokes.push_back({neck_left - 4, y, neck_right + 4, y, thick, 0, dash});
        label(neck_left - out, y + 1, left, 8, true, Drawing::Anchor::right);
        label(neck_right + (outer_ ? 34 : out), y + 1, right, 8);
    }

    void spot(double x, double place) {
        if (holds(place))
            drawing_.spots.push_back({x, at(place), 0.7, true});
    }

    /// A string, where this part has it.
    void string(double x, double length) {
        const double begin = std::max(part_.begin, 0.0), end = std::min(part_.end, length);
        if (begin < end)
            drawing_.strokes.push_back({x, at(begin), x, at(end), hair, 0.5, 0});
    }

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
    double at(double place) const { return head + place - part_.begin; }

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

    static constexpr double words_height = 3.2;
    TemplatePart part_;
    Drawing drawing_;
    double last_ = -1e9; ///< where the line before this stands
    bool outer_ = false;
};

/// Strings spread evenly over the neck, the first at the left.
double string_x(std::size_t index, std::size_t count) {
    const double middle = (neck_left + neck_right) / 2;
    if (count == 1)
        return middle;
    return neck_left
           + (neck_right - neck_left) * static_cast<double>(index) / static_cast<double>(count - 1);
}

/// The names where there is room for all of them; the table has them too.
std::string words_of(const FretPlan& plan, const PlannedFret& fret, const std::string& place) {
    constexpr std::size_t most = 14;
    const std::string names = names_of(plan, fret);
    return character_count(names) <= most ? fmt::format("{}   {} mm", names, place) : place + " mm";
}

void draw_fret(Part& part, const FretPlan& plan, const Fretboard& board, std::size_t number) {
    const PlannedFret& fret = board.frets[number];
    const StopDistance place = place_of(fret, board.length);
    part.across(place.estimate(), fmt::to_string(number + 1),
                words_of(plan, fret, place.millimetres().decimal(2)), line);
    for (std::size_t i = 0; i < board.strings.size(); ++i)
        for (const Stop& stop : fret.stops)
            if (stop.string == board.strings[i])
                part.spot(string_x(i, board.strings.size()), place.estimate());
}

/// The nearest place to `from` that strikes no fret or its words through, on the side of `way`,
/// within what two parts have in common.
double clear_of_frets(const Fretboard& board, double from, double way) {
    constexpr double room = 3, step = 0.5;
    for (double moved = 0; moved < template_overlap / 2; moved += step) {
        const double place = from + way * moved;
        if (std::none_of(board.frets.begin(), board.frets.end(), [&](const PlannedFret& fret) {
                return std::abs(place_of(fret, board.length).estimate() - place) < room;
            }))
            return place;
    }
    return from;
}

Drawing draw_part(const FretPlan& plan, const Fretboard& board, const Length& compensation,
                  const std::vector<TemplatePart>& parts, std::size_t number) {
    Part part(parts[number], number, parts.size());
    const double length = boost::rational_cast<double>(board.length.millimetres());
    const double saddle = boost::rational_cast<double>((board.length + compensation).millimetres());
    for (std::size_t i = 0; i < board.strings.size(); ++i)
        part.string(string_x(i, board.strings.size()), saddle);
    part.across(0, "nut", "0 mm", 2 * line);
    for (std::size_t fret = 0; fret < board.frets.size(); ++fret)
        draw_fret(part, plan, board, fret);
    part.across(length, "bridge", board.length.text() + " nominal", 2 * line);
    if (compensation != Length())
        part.across(saddle, "", "saddle " + (board.length + compensation).text(), line, joint_dash);
    for (const std::size_t joint : {number, number + 1})
        if (joint > 0 && joint < parts.size()) {
            part.joint(clear_of_frets(board, parts[joint].begin, 1), joint, "a");
            part.joint(clear_of_frets(board, parts[joint - 1].end, -1), joint, "b");
        }
    return part.take();
}

} // namespace

std::vector<TemplatePart> template_parts(double length) {
    const double begin = -margin, whole = length + 2 * margin;
    const double step = reach - template_overlap;
    const double count = std::max(1.0, std::ceil((whole - template_overlap) / step));
    std::vector<TemplatePart> parts;
    for (double i = 0; i < count; ++i)
        parts.push_back({begin + i * step, std::min(begin + i * step + reach, begin + whole)});
    return parts;
}

std::vector<Drawing> template_drawings(const FretPlan& plan, const Fretboard& board,
                                       const Length& compensation) {
    const Length whole = board.length + std::max(compensation, Length());
    const double saddle = boost::rational_cast<double>(whole.millimetres());
    auto parts = template_parts(saddle);
    while (parts.size() > 1 && parts[parts.size() - 2].end > saddle) // nothing but margin
        parts.pop_back();
    std::vector<Drawing> drawings;
    for (std::size_t number = 0; number < parts.size(); ++number)
        drawings.push_back(draw_part(plan, board, compensation, parts, number));
    return drawings;
}

} // namespace sectio
