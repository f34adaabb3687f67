// The chart of finger places.

#include <sectio/instrument/fret_page.hpp>
#include <sectio/instrument/fret_template.hpp>

#include <algorithm>

namespace sectio {

namespace {

using page::Drawing;

constexpr double width = 170, left = 26, right = 166, row = 16, top = 8;

/// The neck shrunk so that its longest string fills the width.
class Chart {
  public:
    explicit Chart(const FretPlan& plan) : plan_(plan) {
        Length longest;
        for (const PlannedString& string : plan.strings)
            longest = std::max(longest, string.length);
        scale_ = (right - left) / boost::rational_cast<double>(longest.millimetres());
        drawing_.width = width;
        drawing_.height = top + row * static_cast<double>(plan.strings.size());
        drawing_.heading = "Finger places";
        drawing_.description =
            "the strings from nut to bridge, to scale, with the place of each degree";
    }

    void draw_string(std::size_t index, const Interval& up_to) {
        const PlannedString& string = plan_.strings[index];
        const double y = y_of(index),
                     end = x_of(StopDistance::to_bridge(string.length, Interval()));
        drawing_.strokes.push_back({left, y, end, y, 0.3, 0, 0});
        for (const double x : {left, end})
            drawing_.strokes.push_back({x, y - 3, x, y + 3, 0.6, 0, 0});
        drawing_.labels.push_back({left - 3, y + 1, string.name, 9, Drawing::Anchor::right, true});
        double last = left;
        bool high = false;
        for (const Stop& stop : stops_on(string, index, plan_.scale, up_to)) {
            const double x = x_of(StopDistance::from_nut(string.length, stop.wanted));
            // Names that would run into one another stand at two heights.
            high = x - last < 9 && !high;
            last = x;
            draw_stop(x, y, short_name(plan_, stop), high);
        }
    }

    void draw_frets(const Fretboard& board) {
        for (const PlannedFret& fret : board.frets) {
            const double x = x_of(place_of(fret, board.length));
            for (const std::size_t string : board.strings)
                drawing_.strokes.push_back({x, y_of(string) - 4, x, y_of(string) + 4, 0.2, 0.5, 0});
        }
    }

    Drawing take() { return std::move(drawing_); }

  private:
    double x_of(const StopDistance& distance) const { return left + scale_ * distance.estimate(); }
    static double y_of(std::size_t string) { return top + row * static_cast<double>(string) + 6; }

    void draw_stop(double x, double y, const std::string& name, bool high) {
        drawing_.spots.push_back({x, y, 1.0, true});
        drawing_.labels.push_back(
            {x, y - (high ? 7.5 : 4.5), name, 7, Drawing::Anchor::middle, false});
    }

    const FretPlan& plan_;
    double scale_ = 1;
    Drawing drawing_;
};

} // namespace

Drawing finger_chart(const FretPlan& plan, const Interval& up_to) {
    Chart chart(plan);
    for (const Fretboard& board : plan.boards)
        chart.draw_frets(board);
    for (std::size_t i = 0; i < plan.strings.size(); ++i)
        chart.draw_string(i, up_to);
    return chart.take();
}

} // namespace sectio
