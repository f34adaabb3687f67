#include <sectio/base/argument.hpp>
#include <sectio/page/degree_rows.hpp>

#include <algorithm>

namespace sectio::page {

namespace {

// Millimetres.
constexpr double rows_width = 170, name_width = 44, end_room = 3;
constexpr double row_height = 11, mark = 2.2, first_row = 7, foot = 5;
constexpr double line_width = 0.2, mark_width = 0.35, heavy_width = 0.8, guide_grey = 0.45;
constexpr double number_height = 3.3;
constexpr double number_gap = 3.2; ///< between two labels that are both written
constexpr double points_of_labels = 7, points_of_names = 9;

class Rows {
  public:
    Rows(const std::vector<DegreeRow>& rows, double low, double high)
        : rows_(rows), low_(low), high_(high) {}

    Drawing draw() {
        drawing_.width = rows_width;
        drawing_.height = first_row + row_height * static_cast<double>(rows_.size() - 1) + foot;
        for (std::size_t i = 0; i < rows_.size(); ++i)
            row(i);
        for (const DegreeMark& m : rows_.front().marks)
            if (within(m.cents))
                guides(x(m.cents));
        return std::move(drawing_);
    }

  private:
    bool within(double cents) const { return cents >= low_ && cents <= high_; }

    double x(double cents) const {
        return name_width + (cents - low_) / (high_ - low_) * (rows_width - name_width - end_room);
    }

    static double y(std::size_t row) { return first_row + row_height * static_cast<double>(row); }

    void row(std::size_t i) {
        Drawing::Label name{
            0, y(i) + 1, rows_[i].name, points_of_names, Drawing::Anchor::left, rows_[i].bold};
        name.most_width = name_width - 2, name.most_height = 8;
        drawing_.labels.push_back(name);
        drawing_.strokes.push_back({x(low_), y(i), rows_width - end_room, y(i), line_width, 0, 0});
        double labelled = -number_gap;
        for (const DegreeMark& m : rows_[i].marks)
            if (within(m.cents))
                labelled = marked(m, i, labelled);
    }

    /// Draws a mark; where the last label of its row stands then.
    double marked(const DegreeMark& m, std::size_t i, double labelled) {
        const double place = x(m.cents);
        const double above = i == 0 ? mark + 1 : mark, width = i == 0 ? heavy_width : mark_width;
        drawing_.strokes.push_back({place, y(i) - above, place, y(i) + mark, width, 0, 0});
        if (m.label.empty() || place - labelled < number_gap)
            return labelled;
        drawing_.labels.push_back(
            {place, y(i) + mark + 2.7, m.label, points_of_labels, Drawing::Anchor::middle});
        return place;
    }

    /// Down from the first row to the last, not through labels.
    void guides(double place) {
        for (std::size_t i = 0; i + 1 < rows_.size(); ++i) {
            const bool labels = std::any_of(rows_[i].marks.begin(), rows_[i].marks.end(),
                                            [](const DegreeMark& m) { return !m.label.empty(); });
            const double begin = y(i) + mark + (labels ? number_height : 0);
            drawing_.strokes.push_back(
                {place, begin, place, y(i + 1) + mark, line_width, guide_grey, 0.8});
        }
    }

    const std::vector<DegreeRow>& rows_;
    double low_, high_;
    Drawing drawing_;
};

} // namespace

Drawing degree_rows(const std::vector<DegreeRow>& rows, double low, double high) {
    check_argument(!rows.empty() && std::isfinite(low) && std::isfinite(high),
                   "what is drawn on an axis", "rows between two numbers");
    return Rows(rows, low, high).draw();
}

} // namespace sectio::page
