#include <sectio/sheet/error_chart.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace sectio {

namespace {

using page::Drawing;

// Millimetres.
constexpr double drawing_width = 170, drawing_height = 96;
constexpr double left = 14, right = 3, top = 5, bottom = 14;
constexpr double axis_width = 0.3, grid_width = 0.15, course_width = 0.2, grid_grey = 0.75;
constexpr double dot = 0.9, small_dot = 0.45;
constexpr double digit_width = 1.65, number_height = 3.2; ///< of the records' numbers
constexpr double points = 8;
constexpr double room_below =
    1.6; ///< a factor: the least error stands above the axis with its number
constexpr double room_above_none = 4; ///< the same where the floor has those without error
/// Numbers of divisions that span more than this are drawn on a logarithmic axis.
constexpr double much = 20;

struct Point {
    double division = 0, cents = 0;
    bool record = false;
};

/// By number; a record errs less than all before it.
std::vector<Point> points_of(const DivisionRanking& ranking) {
    std::vector<std::int64_t> divisions = ranking.divisions;
    std::sort(divisions.begin(), divisions.end());
    std::vector<Point> found;
    double least = HUGE_VAL;
    for (const std::int64_t n : divisions) {
        const double cents = ranking.table.row(n).max_error_cents.estimate();
        found.push_back({static_cast<double>(n), cents, cents < least});
        least = std::min(least, cents);
    }
    return found;
}

/// A stretch of the paper for the values from `low` to `high`.
class Axis {
  public:
    Axis(double low, double high, double from, double to, bool logarithmic)
        : logarithmic_(logarithmic), low_(on(low)), high_(on(high)), from_(from), to_(to) {
        if (high_ <= low_)
            high_ = low_ + 1;
    }

    double operator()(double value) const {
        return from_ + (on(value) - low_) / (high_ - low_) * (to_ - from_);
    }
    bool logarithmic() const { return logarithmic_; }

  private:
    double on(double value) const { return logarithmic_ ? std::log(value) : value; }

    bool logarithmic_;
    double low_, high_, from_, to_;
};

/// Round values within a range: 1, 2, 5 times powers of ten, or as many as eight at equal
/// distances.
std::vector<double> round_values(double low, double high, bool logarithmic) {
    std::vector<double> values;
    const auto keep = [&](double value) {
        if (value >= low * (1 - 1e-9) && value <= high * (1 + 1e-9))
            values.push_back(value);
    };
    if (logarithmic) {
        const double first = std::floor(std::log10(low) + 1e-9);
        for (double e = first; e <= std::log10(high) + 1e-9; ++e)
            for (const double times : {1.0, 2.0, 5.0})
                keep(times * std::pow(10, e));
        return values;
    }
    constexpr double most = 8;
    const double power = std::pow(10, std::floor(std::log10((high - low) / most)));
    double step = power;
    for (const double times : {1.0, 2.0, 5.0, 10.0})
        if ((high - low) / (step = times * power) <= most)
            break;
    for (double value = std::ceil(low / step) * step; value <= high; value += step)
        keep(value);
    return values;
}

class Chart {
  public:
    explicit Chart(const std::vector<Point>& all)
        : points_(all), exact_(std::any_of(all.begin(), all.end(), errs_not)),
          low_(least() / (exact_ ? room_above_none : room_below)), high_(most()),
          x_(all.front().division, all.back().division, left + 2, drawing_width - right - 4,
             all.back().division > much * all.front().division),
          y_(low_, high_, drawing_height - bottom, top, true) {}

    Drawing draw() {
        drawing_.width = drawing_width, drawing_.height = drawing_height;
        across();
        up();
        course();
        records();
        return std::move(drawing_);
    }

  private:
    static bool errs_not(const Point& p) { return p.cents <= 0; }
    /// Of those that err.
    double least() const {
        double found = HUGE_VAL;
        for (const Point& p : points_)
            found = errs_not(p) ? found : std::min(found, p.cents);
        return found;
    }
    /// On the floor what has no error, for which a logarithmic axis has no place.
    double height(const Point& p) const {
        return errs_not(p) ? drawing_height - bottom : y_(p.cents);
    }
    double most() const { return std::max_element(points_.begin(), points_.end(), less)->cents; }
    static bool less(const Point& a, const Point& b) { return a.cents < b.cents; }

    void line(double x1, double y1, double x2, double y2, double width, double grey = 0) {
        drawing_.strokes.push_back({x1, y1, x2, y2, width, grey, 0});
    }

    void across() {
        const double floor = drawing_height - bottom;
        line(left, floor, drawing_width - right, floor, axis_width);
        for (const double n :
             round_values(points_.front().division, points_.back().division, x_.logarithmic())) {
            line(x_(n), floor, x_(n), floor + 1.2, axis_width);
            drawing_.labels.push_back(
                {x_(n), floor + 4.5, fmt::format("{:.0f}", n), points, Drawing::Anchor::middle});
        }
        drawing_.labels.push_back({(left + drawing_width) / 2, drawing_height - 3,
                                   "number of equal steps", points, Drawing::Anchor::middle});
    }

    void up() {
        line(left, top, left, drawing_height - bottom, axis_width);
        for (const double cents : round_values(low_, high_, true)) {
            line(left, y_(cents), drawing_width - right, y_(cents), grid_width, grid_grey);
            if (!exact_ || y_(cents) < drawing_height - bottom - number_height)
                figure(y_(cents), cents);
        }
        if (exact_)
            figure(drawing_height - bottom, 0);
        drawing_.labels.push_back({0, top - 2, "cents", points, Drawing::Anchor::left});
    }

    void figure(double y, double cents) {
        drawing_.labels.push_back(
            {left - 1.2, y + 1, fmt::format("{:g}", cents), points, Drawing::Anchor::right});
    }

    void course() {
        for (std::size_t i = 1; i < points_.size(); ++i)
            line(x_(points_[i - 1].division), height(points_[i - 1]), x_(points_[i].division),
                 height(points_[i]), course_width, 0.5);
    }

    /// The last record first, so that it has its number for sure; a number stands below its dot,
    /// or above it, or nowhere where others are in the way.
    void records() {
        for (auto p = points_.rbegin(); p != points_.rend(); ++p) {
            const double x = x_(p->division), y = height(*p);
            drawing_.dots.push_back({x, y, p->record ? dot : small_dot, true});
            const std::string text = fmt::format("{:.0f}", p->division);
            if (p->record && (errs_not(*p) || !numbered(text, x, y + 4.2)))
                numbered(text, x, y - 2);
        }
    }

    /// Writes a number with its baseline at `y` unless it would touch another.
    bool numbered(const std::string& text, double x, double y) {
        const double half = digit_width * static_cast<double>(text.size()) / 2 + 0.6;
        for (const Taken& other : taken_)
            if (std::abs(other.x - x) < other.half + half && std::abs(other.y - y) < number_height)
                return false;
        taken_.push_back({x, y, half});
        drawing_.labels.push_back({x, y, text, points, Drawing::Anchor::middle, true});
        return true;
    }

    struct Taken {
        double x, y, half; ///< half of the width
    };
    std::vector<Taken> taken_;
    const std::vector<Point>& points_;
    bool exact_; ///< some division has no error
    double low_, high_;
    Axis x_, y_;
    Drawing drawing_;
};

} // namespace

std::optional<page::Drawing> error_chart(const DivisionRanking& ranking) {
    constexpr std::size_t fewest = 3, most = 2000;
    if (ranking.divisions.size() < fewest || ranking.divisions.size() > most)
        return std::nullopt;
    const std::vector<Point> all = points_of(ranking);
    if (std::none_of(all.begin(), all.end(), [](const Point& p) { return p.cents > 0; }))
        return std::nullopt;
    Drawing drawing = Chart(all).draw();
    drawing.heading = "Largest error; bold, with its number: better than every smaller one here";
    drawing.description = fmt::format("The largest error in cents of {} divisions, from {:g} to "
                                      "{:g} equal steps",
                                      all.size(), all.front().division, all.back().division);
    return drawing;
}

} // namespace sectio
