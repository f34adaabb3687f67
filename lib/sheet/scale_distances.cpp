#include <sectio/page/degree_rows.hpp>
#include <sectio/scale/comparison.hpp>
#include <sectio/sheet/scale_distances.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

using page::Cell;
using page::Column;
using page::ColumnKind;

/// The widest half width of all degrees of both, on which their distance rests.
std::optional<page::HalfWidth> half_width(const Scale& a, const Scale& b) {
    std::optional<Interval> widest;
    for (const Scale* scale : {&a, &b})
        for (const Degree& degree : scale->degrees)
            if (degree.uncertainty && (!widest || *degree.uncertainty > *widest))
                widest = degree.uncertainty;
    return widest ? std::optional<page::HalfWidth>(*widest) : std::nullopt;
}

Cell distance(const Scale& a, const Scale& b, bool best) {
    const auto d = best ? best_difference(a, b) : std::optional(difference(a, b));
    if (!d)
        return {};
    return page::Number(root_mean_square(d->errors())).borne_by(half_width(a, b));
}

page::Table matrix(const std::vector<Scale>& scales, bool best) {
    std::vector<std::size_t> rows(scales.size());
    for (std::size_t i = 0; i < rows.size(); ++i)
        rows[i] = i;
    page::Table table{best ? "distances_best" : "distances",
                      best ? "RMS error in cents where they fit best"
                           : "RMS error in cents from the same tonic",
                      {},
                      {}};
    table.add(rows, Column{"", ColumnKind::key}, [](std::size_t i) { return page::count(i + 1); });
    table.add(rows, Column{"Scale", ColumnKind::words}.keyed("name"),
              [&](std::size_t i) { return scales[i].name; });
    for (std::size_t to = 0; to < scales.size(); ++to)
        table.add(rows,
                  Column{std::to_string(to + 1), ColumnKind::figure, "", to + 1}.keyed(
                      fmt::format("to[{}].rms_error_cents", to)),
                  [&](std::size_t from) { return distance(scales[from], scales[to], best); });
    return table;
}

double cents_of(const Interval& interval) {
    return 1200 * interval.estimate().value;
}

/// The degrees in every period from `low` to `high`, numbered, and the period as the tonic again.
page::DegreeRow row_of(const Scale& scale, double low, double high) {
    page::DegreeRow row{scale.name, false, {}};
    const double period = scale.period ? cents_of(*scale.period) : 0;
    const auto turns = [&](double cents) { return period > 0 ? std::floor(cents / period) : 0; };
    for (double turn = turns(low); turn <= turns(high); ++turn)
        for (std::size_t i = 0; i < scale.degrees.size(); ++i)
            row.marks.push_back(
                {cents_of(scale.degrees[i].interval) + turn * period, std::to_string(i + 1)});
    std::sort(row.marks.begin(), row.marks.end(),
              [](const auto& a, const auto& b) { return a.cents < b.cents; });
    return row;
}

} // namespace

std::vector<page::Table> distance_tables(const std::vector<Scale>& scales) {
    return {matrix(scales, false), matrix(scales, true)};
}

page::Drawing scales_drawing(const std::vector<Scale>& scales) {
    constexpr double margin_cents = 60;
    double low = 0, high = 0;
    for (const Degree& degree : scales.front().degrees) {
        low = std::min(low, cents_of(degree.interval));
        high = std::max(high, cents_of(degree.interval));
    }
    if (const auto& period = scales.front().period)
        high = std::max(high, cents_of(*period));
    low -= margin_cents, high += margin_cents;
    std::vector<page::DegreeRow> rows;
    for (const Scale& scale : scales)
        rows.push_back(row_of(scale, low, high));
    rows.front().bold = true;
    page::Drawing drawing = page::degree_rows(rows, low, high);
    drawing.heading = "All from the same tonic";
    drawing.description =
        fmt::format("The degrees of {} scales on lines to scale, below those of {}", scales.size(),
                    scales.front().name);
    return drawing;
}

} // namespace sectio
