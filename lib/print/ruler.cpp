#include <sectio/print/ruler.hpp>
#include <sectio/print/spread.hpp>

#include <algorithm>

namespace sectio::page {

namespace {

constexpr double most_gutter = 9, ///< of the size of type
    gutter_gap = 12, right_gap = 10;
constexpr double short_tick = 4.5, long_tick = 9;
constexpr double degree_stroke = 10, leader = 8, lane_gap = 8, lane_degree = 7;
constexpr double label_gap = 4, least_tick_distance = 2.2, least_degree_distance = 0.4;

/// One drawing of a ruler.
class RulerPen {
  public:
    RulerPen(const Ruler& ruler, Typesetter& type, TypesetPage& page, double x, double y,
             double width, const RulerType& sizes)
        : ruler_(ruler), type_(type),
          page_(page), heading_style_{8.5 * sizes.scale, true}, mark_style_{8.5 * sizes.scale},
          number_style_{9.5 * sizes.scale, true}, name_style_{8.5 * sizes.scale},
          least_(sizes.least), left_(x), y_(y) {
        double gutter = 0;
        for (const Ruler::Line& line : ruler.lines)
            gutter = std::max(gutter, heading(line).width());
        start_ = x + gutter + gutter_gap;
        length_ = width - gutter - gutter_gap - right_gap;
    }

    double draw(double top) {
        marks_above(ruler_.lines.front());
        degrees();
        for (std::size_t i = 1; i < ruler_.lines.size(); ++i)
            lane_below(ruler_.lines[i], i > 1);
        return y_ - top;
    }

  private:
    TypesetText heading(const Ruler::Line& line) {
        const bool octave = line.heading.find(' ') == std::string::npos;
        return name_of_line(line.heading + (line.places.empty() && octave ? " steps" : ""));
    }
    /// Made smaller before it takes more than two lines.
    TypesetText name_of_line(const std::string& name) {
        constexpr double smaller = 0.7;
        constexpr std::size_t few_lines = 2;
        constexpr int most_lines = 6;
        const double most = most_gutter * heading_style_.size;
        const double least = std::max(smaller * heading_style_.size, least_);
        return type_.wrapped(name, type_.shrunk(name, heading_style_, most, few_lines, least), most,
                             most_lines);
    }
    double at(double place) const { return start_ + place * length_; }
    void stroke(double x1, double y1, double x2, double y2, double width) {
        page_.strokes.push_back({x1, y1, x2, y2, width, 0});
    }
    /// `y` is the top of a line of plain digits; signs from other fonts stand on its baseline too.
    void place(const TypesetText& text, const TextStyle& style, double x, double y) {
        const double shift = type_.line("0", style).baseline() - text.baseline();
        page_.texts.push_back({x, y + shift, text});
    }
    void centred(const TypesetText& text, const TextStyle& style, double x, double y) {
        place(text, style, x - text.width() / 2, y);
    }
    double line_height(const TextStyle& style) { return type_.line("0", style).height(); }
    void rule() { stroke(at(0) - 0.5, y_, at(1) + 0.5, y_, 1); }

    struct Label {
        double place;
        TypesetText text;
    };
    std::string mark_name(const Ruler::Line& line, long step) const {
        const auto index = static_cast<std::size_t>(step);
        return index < line.names.size() ? line.names[index] : std::to_string(step);
    }
    static long last_mark(const Ruler::Line& line) {
        return line.places.empty() ? line.count : static_cast<long>(line.places.size()) - 1;
    }
    static double mark_place(const Ruler::Line& line, long k) {
        return line.places.empty() ? static_cast<double>(k) * line.step
                                   : line.places[static_cast<std::size_t>(k)];
    }
    Label label(const Ruler::Line& line, long k) {
        return {mark_place(line, k), type_.line(mark_name(line, k), mark_style_)};
    }
    std::vector<Label> labels(const Ruler::Line& line) {
        return line.places.empty() ? equal_labels(line) : unequal_labels(line);
    }
    /// Every so many that the widest label has room, and the last one if it has.
    std::vector<Label> equal_labels(const Ruler::Line& line) {
        const double widest = type_.line(mark_name(line, line.count), mark_style_).width();
        const double room =
            std::max(widest, line.names.empty() ? 0.0 : mark_style_.size * 1.4) + 1.5 * label_gap;
        const auto every = static_cast<long>(
            mark_interval(line.step * length_, line.names.empty() ? line.count : 12, room));
        std::vector<Label> out;
        for (long k = 0; k <= line.count; k += every)
            out.push_back(label(line, k));
        const Label last = label(line, line.count);
        if ((last.place - out.back().place) * length_ >= room)
            out.push_back(last);
        return out;
    }
    /// Each that has room after the one before, where place_labels() will put it: within the
    /// ruler's surroundings.
    std::vector<Label> unequal_labels(const Ruler::Line& line) {
        std::vector<Label> out;
        double end = 0; ///< of the label before
        for (long k = 0; k <= last_mark(line); ++k) {
            const Label next = label(line, k);
            const double half = next.text.width() / 2;
            const double middle =
                std::max(std::min(at(next.place), at(1) + right_gap - half), label_low() + half);
            if (!out.empty() && middle - half < end + 1.5 * label_gap)
                continue;
            out.push_back(next);
            end = middle + half;
        }
        return out;
    }
    double label_low() const { return start_ - gutter_gap + 2; }
    /// Puts labels under their marks; one at an end stays within the ruler's surroundings.
    void place_labels(const std::vector<Label>& labels) {
        std::vector<double> places, widths;
        for (const Label& label : labels) {
            places.push_back(at(label.place));
            widths.push_back(label.text.width());
        }
        const auto middles = spread(places, widths, label_low(), at(1) + right_gap);
        for (std::size_t i = 0; i < labels.size(); ++i)
            centred(labels[i].text, mark_style_, middles[i], y_);
    }
    /// Ticks of a division from the rule at `y` in direction `way` (-1 up).
    void ticks(const Ruler::Line& line, const std::vector<Label>& labelled, double way) {
        const auto every = line.places.empty() ? static_cast<long>(
                               mark_interval(line.step * length_, line.count, least_tick_distance))
                                               : 1;
        for (long k = 0; k <= last_mark(line); k += every) {
            const double x = at(mark_place(line, k));
            stroke(x, y_, x, y_ + way * short_tick, 0.5);
        }
        for (const Label& label : labelled)
            stroke(at(label.place), y_, at(label.place), y_ + way * long_tick, 0.8);
    }

    void marks_above(const Ruler::Line& line) {
        const double height = line_height(mark_style_);
        const auto labelled = labels(line);
        place_labels(labelled);
        place(heading(line), heading_style_, left_, y_);
        y_ += height + long_tick;
        ticks(line, labelled, -1);
        rule();
    }
    void lane_below(const Ruler::Line& line, bool own_rule) {
        if (own_rule) {
            y_ += lane_gap + lane_degree;
            rule();
            degree_strokes(y_ - lane_degree, y_);
        }
        const auto labelled = labels(line);
        ticks(line, labelled, 1);
        y_ += long_tick;
        place_labels(labelled);
        const TypesetText name = heading(line);
        place(name, heading_style_, left_, y_);
        y_ += std::max(line_height(mark_style_), name.height());
    }

    /// The degrees' exact places between two heights; those that would fall together are one
    /// stroke.
    void degree_strokes(double y1, double y2) {
        double before = -1;
        for (const Ruler::Mark& row : ruler_.marks) {
            const double x = at(row.place);
            if (x - before >= least_degree_distance)
                stroke(x, y1, x, y2, 1.6), before = x;
        }
    }
    /// Every how many degrees the number stands: as few left out as the room allows.
    std::size_t number_interval() {
        const double widest =
            type_.line(ruler_.marks.back().number, number_style_).width() + label_gap;
        const double rows = static_cast<double>(ruler_.marks.size());
        return static_cast<std::size_t>(
            mark_interval(length_ / rows, static_cast<long>(ruler_.marks.size()), widest));
    }
    bool names_fit() {
        double sum = 0;
        for (const Ruler::Mark& row : ruler_.marks)
            sum += std::max(type_.line(row.name, name_style_).width(), number_style_.size)
                   + 2 * label_gap;
        return sum < length_;
    }
    void degrees() {
        const std::size_t every = number_interval();
        std::vector<const Ruler::Mark*> numbered;
        for (std::size_t i = 0; i < ruler_.marks.size(); ++i)
            if (i == 0 || (i + 1) % every == 0)
                numbered.push_back(&ruler_.marks[i]);
        const bool named = every == 1 && ruler_.marks.size() <= 24 && names_fit();
        const double height = line_height(number_style_) + (named ? line_height(name_style_) : 0);
        const double inner = y_ + degree_stroke + leader;
        degree_strokes(y_, y_ + degree_stroke);
        const double bottom = inner + height + leader;
        degree_strokes(bottom, bottom + degree_stroke);
        degree_labels(numbered, named, inner, height);
        y_ = bottom + degree_stroke;
        rule();
    }
    void degree_labels(const std::vector<const Ruler::Mark*>& rows, bool named, double y,
                       double height) {
        std::vector<double> places, widths;
        for (const Ruler::Mark* row : rows) {
            const double name = named ? type_.line(row->name, name_style_).width() : 0;
            places.push_back(at(row->place));
            widths.push_back(std::max(type_.line(row->number, number_style_).width(), name)
                             + (named ? 2 : 1) * label_gap);
        }
        const auto middles = spread(places, widths, start_ - gutter_gap + 2, at(1) + right_gap);
        for (std::size_t i = 0; i < rows.size(); ++i) {
            centred(type_.line(rows[i]->number, number_style_), number_style_, middles[i], y);
            if (named)
                centred(type_.line(rows[i]->name, name_style_), name_style_, middles[i],
                        y + line_height(number_style_));
            stroke(places[i], y - leader, middles[i], y, 0.5);
            stroke(middles[i], y + height, places[i], y + height + leader, 0.5);
        }
    }

    const Ruler& ruler_;
    Typesetter& type_;
    TypesetPage& page_;
    TextStyle heading_style_, mark_style_, number_style_, name_style_;
    double least_, left_, y_, start_ = 0, length_ = 0;
};

} // namespace

double draw_ruler(const Ruler& ruler, Typesetter& type, TypesetPage& page, double x, double y,
                  double width, const RulerType& sizes) {
    if (ruler.lines.empty() || ruler.marks.empty())
        return 0;
    return RulerPen(ruler, type, page, x, y, width, sizes).draw(y);
}

} // namespace sectio::page
