#include <sectio/identify/candidate_chart.hpp>
#include <sectio/identify/cents.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

using page::Drawing;

constexpr std::size_t most_candidates = 6;
// Millimetres.
constexpr double drawing_width = 170, name_width = 44, end_room = 3;
constexpr double row_height = 11, mark = 2.2, first_row = 7;
constexpr double line_width = 0.2, mark_width = 0.35, pitch_width = 0.8, guide_grey = 0.45;
constexpr double number_height = 3.3;
constexpr double number_gap = 3.2; ///< between two numbers that are both written

/// Room beside the outermost pitches, in cents, so that a degree next to them is seen.
constexpr double margin_cents = 60;

class Chart {
  public:
    explicit Chart(const Identification& answer) : answer_(answer) {
        for (const IdentifiedPitch& p : answer.pitches)
            pitches_.push_back(cents_of(p.interval));
        const auto [low, high] = std::minmax_element(pitches_.begin(), pitches_.end());
        low_ = *low - margin_cents, span_ = *high - *low + 2 * margin_cents;
    }

    Drawing draw() {
        const std::size_t rows = std::min(answer_.candidates.size(), most_candidates);
        drawing_.heading = "The pitches on the degrees of the likeliest scales";
        drawing_.width = drawing_width;
        drawing_.height = first_row + row_height * static_cast<double>(rows) + 5;
        drawing_.description =
            fmt::format("{} pitches above the degrees of {} scales", pitches_.size(), rows);
        pitch_row(rows);
        for (std::size_t i = 0; i < rows; ++i)
            candidate_row(answer_.candidates[i],
                          first_row + row_height * static_cast<double>(i + 1));
        return std::move(drawing_);
    }

  private:
    double x(double cents) const {
        return name_width + (cents - low_) / span_ * (drawing_width - name_width - end_room);
    }

    void name(const std::string& text, double y, bool bold) {
        Drawing::Label label{0, y + 1, text, 9, Drawing::Anchor::left, bold};
        label.most_width = name_width - 2, label.most_height = 8;
        drawing_.labels.push_back(label);
    }

    void line(double y) {
        drawing_.strokes.push_back({x(low_), y, drawing_width - end_room, y, line_width, 0, 0});
    }

    /// From the row at `y` to the next; not through the numbers where the row has some.
    void guide(double place, double y, bool numbers) {
        const double begin = y + mark + (numbers ? number_height : 0);
        drawing_.strokes.push_back(
            {place, begin, place, y + row_height + mark, line_width, guide_grey, 0.8});
    }

    void pitch_row(std::size_t rows) {
        name("The pitches", first_row, true);
        line(first_row);
        for (const double cents : pitches_) {
            drawing_.strokes.push_back(
                {x(cents), first_row - mark - 1, x(cents), first_row + mark, pitch_width, 0, 0});
            for (std::size_t i = 0; i < rows; ++i)
                guide(x(cents), first_row + row_height * static_cast<double>(i), i > 0);
        }
    }

    void candidate_row(const Candidate& candidate, double y) {
        name(candidate.scale->entry.name, y, candidate.named);
        line(y);
        double numbered = -number_gap;
        const auto& degrees = candidate.scale->degrees;
        const double period = candidate.scale->period;
        const auto turns = [&](double cents) {
            return period > 0 ? std::floor(cents / period) : 0;
        };
        const double high = low_ + span_;
        for (double turn = turns(low_ - candidate.tonic_cents);
             turn <= turns(high - candidate.tonic_cents); ++turn)
            for (std::size_t i = 0; i < degrees.size(); ++i) {
                const double cents = candidate.tonic_cents + degrees[i] + turn * period;
                if (cents < low_ || cents > high)
                    continue;
                drawing_.strokes.push_back(
                    {x(cents), y - mark, x(cents), y + mark, mark_width, 0, 0});
                if (x(cents) - numbered < number_gap)
                    continue;
                numbered = x(cents);
                drawing_.labels.push_back(
                    {x(cents), y + mark + 2.7, std::to_string(i + 1), 7, Drawing::Anchor::middle});
            }
    }

    const Identification& answer_;
    std::vector<double> pitches_;
    double low_ = 0, span_ = 1;
    Drawing drawing_;
};

} // namespace

std::optional<Drawing> candidate_chart(const Identification& answer) {
    if (answer.candidates.empty() || answer.pitches.size() < 2)
        return std::nullopt;
    return Chart(answer).draw();
}

} // namespace sectio
