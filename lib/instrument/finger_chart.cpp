// The chart of finger places.

#include <sectio/instrument/fret_page.hpp>
#include <sectio/instrument/fret_template.hpp>
#include <sectio/instrument/stop_distance.hpp>
#include <sectio/page/numbers.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio {

namespace {

using page::Drawing;

// Millimetres, but for points.
constexpr double chart_width = 170, left = 26, right = 166, label_gap = 3;
constexpr double name_points = 9, stop_points = 7, large_points = 14;
constexpr double above_string = 4.5, below_string = 6, beside_nut = 1;

/// Of a letter of names, on average and at a point of size.
constexpr double letter = 0.21;
double line_height(double points) {
    return 0.45 * points;
}

/// Lines of names over a string.
constexpr std::size_t most_lines = 4;

/// A stop's name, and on which of the lines over its string it stands.
struct NamedStop {
    double x;
    std::string name;
    std::size_t line = 0;
};

/// The neck shrunk so that its longest string fills the width.
class Chart {
  public:
    Chart(const FretPlan& plan, const Interval& up_to, bool large)
        : plan_(plan), up_to_(up_to), stop_points_(large ? large_points : stop_points),
          name_points_(large ? large_points : name_points) {
        Length longest;
        for (const PlannedString& string : plan.strings)
            longest = std::max(longest, string.length);
        scale_ = (right - left) / in_mm(longest);
        drawing_.width = chart_width;
        drawing_.heading = "Finger places";
        drawing_.description =
            "the strings from nut to bridge, to scale, with the place of each degree";
        for (std::size_t i = 0; i < plan.strings.size(); ++i)
            numbered_ = numbered_ || has_long_name(i);
        for (std::size_t i = 0; i < plan.strings.size(); ++i)
            add_string(i);
    }

    Drawing draw() {
        for (const Fretboard& board : plan_.boards)
            draw_frets(board);
        for (std::size_t i = 0; i < strings_.size(); ++i)
            draw_string(i);
        return std::move(drawing_);
    }

  private:
    std::vector<Stop> stops_of(std::size_t index) const {
        const PlannedString& string = plan_.strings[index];
        return string.fretted ? stops_on(string, index, plan_.scale, up_to_) : std::vector<Stop>{};
    }

    bool has_long_name(std::size_t index) const {
        const std::vector<Stop> stops = stops_of(index);
        return std::any_of(stops.begin(), stops.end(), [this](const Stop& stop) {
            return short_name(plan_, stop) != name_of(plan_, stop);
        });
    }

    /// Room for the names over the string, one above the other where they would run together.
    void add_string(std::size_t index) {
        const PlannedString& string = plan_.strings[index];
        std::vector<NamedStop> stops;
        std::vector<double> ends; // of the names on each line
        for (const Stop& stop : stops_of(index)) {
            NamedStop named{x_of(StopDistance::from_nut(string.length, stop.wanted)),
                            numbered_ ? fmt::to_string(stop.degree) : name_of(plan_, stop)};
            const double half =
                letter * stop_points_ * static_cast<double>(display_width(named.name)) / 2;
            while (named.line < ends.size() && named.x - half < ends[named.line] + 1)
                ++named.line;
            if (named.line == most_lines) { // the dot alone; the table has the name
                stops.push_back({named.x, "", 0});
                continue;
            }
            ends.resize(std::max(ends.size(), named.line + 1));
            ends[named.line] = named.x + half;
            stops.push_back(std::move(named));
        }
        const double names =
            above_string + line_height(stop_points_) * static_cast<double>(ends.size());
        heights_.push_back(drawing_.height + std::max(names, below_string));
        drawing_.height = heights_.back() + below_string;
        strings_.push_back(std::move(stops));
    }

    void draw_string(std::size_t index) {
        const PlannedString& string = plan_.strings[index];
        const double y = heights_[index],
                     end = x_of(StopDistance::to_bridge(string.length, Interval()));
        drawing_.strokes.push_back({left, y, end, y, 0.3, 0, 0});
        for (const double x : {left, end})
            drawing_.strokes.push_back({x, y - 3, x, y + 3, 0.6, 0, 0});
        Drawing::Label name{left - label_gap, y + beside_nut,         string.name,
                            name_points_,     Drawing::Anchor::right, true};
        name.most_width = left - label_gap;
        name.most_height = above_string + below_string + line_height(name_points_);
        drawing_.labels.push_back(std::move(name));
        for (const NamedStop& stop : strings_[index]) {
            drawing_.dots.push_back({stop.x, y, 1.0, true});
            const double up =
                above_string + line_height(stop_points_) * static_cast<double>(stop.line);
            if (!stop.name.empty())
                drawing_.labels.push_back(
                    {stop.x, y - up, stop.name, stop_points_, Drawing::Anchor::middle, false});
        }
    }

    void draw_frets(const Fretboard& board) {
        for (const PlannedFret& fret : board.frets) {
            const double x = x_of(place_of(fret, board.length));
            for (const std::size_t string : board.strings)
                drawing_.strokes.push_back(
                    {x, heights_[string] - 4, x, heights_[string] + 4, 0.2, 0.5, 0});
        }
    }

    double x_of(const StopDistance& distance) const { return left + scale_ * distance.estimate(); }

    const FretPlan& plan_;
    const Interval& up_to_;
    double stop_points_, name_points_;
    double scale_ = 1;
    bool numbered_ = false;       ///< some name is too long, and all are told by their numbers
    std::vector<double> heights_; ///< of the strings, from the top
    std::vector<std::vector<NamedStop>> strings_;
    Drawing drawing_;
};

} // namespace

Drawing finger_chart(const FretPlan& plan, const Interval& up_to, bool large) {
    return Chart(plan, up_to, large).draw();
}

} // namespace sectio
