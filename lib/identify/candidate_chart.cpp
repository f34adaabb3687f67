#include <sectio/identify/candidate_chart.hpp>
#include <sectio/identify/cents.hpp>
#include <sectio/page/degree_rows.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

constexpr std::size_t most_candidates = 6;
/// Room beside the outermost pitches, in cents, so that a degree next to them is seen.
constexpr double margin_cents = 60;

/// The candidate's degrees where they fit best, in every period from `low` to `high`.
page::DegreeRow row_of(const Candidate& candidate, double low, double high) {
    page::DegreeRow row{candidate.scale->entry.name, candidate.named, {}};
    const double period = candidate.scale->period, tonic = candidate.tonic_cents;
    const auto turns = [&](double cents) {
        return period > 0 ? std::floor((cents - tonic) / period) : 0;
    };
    for (double turn = turns(low); turn <= turns(high); ++turn)
        for (std::size_t i = 0; i < candidate.scale->degrees.size(); ++i)
            row.marks.push_back(
                {tonic + candidate.scale->degrees[i] + turn * period, std::to_string(i + 1)});
    return row;
}

} // namespace

std::optional<page::Drawing> candidate_chart(const Identification& answer) {
    if (answer.candidates.empty() || answer.pitches.size() < 2)
        return std::nullopt;
    std::vector<page::DegreeRow> rows{{"The pitches", true, {}}};
    for (const IdentifiedPitch& p : answer.pitches)
        rows[0].marks.push_back({cents_of(p.interval)});
    const auto [least, most] =
        std::minmax_element(rows[0].marks.begin(), rows[0].marks.end(),
                            [](const auto& a, const auto& b) { return a.cents < b.cents; });
    const double low = least->cents - margin_cents, high = most->cents + margin_cents;
    const std::size_t shown = std::min(answer.candidates.size(), most_candidates);
    for (std::size_t i = 0; i < shown; ++i)
        rows.push_back(row_of(answer.candidates[i], low, high));
    page::Drawing drawing = page::degree_rows(rows, low, high);
    drawing.heading = "The pitches on the degrees of the likeliest scales";
    drawing.description =
        fmt::format("{} pitches above the degrees of {} scales", answer.pitches.size(), shown);
    return drawing;
}

} // namespace sectio
