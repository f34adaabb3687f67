// The interval matrix: the worked example of a page (DEVELOPERS.md).

#include <sectio/base/limits.hpp>
#include <sectio/scale/interval_report.hpp>
#include <sectio/sheet/beats.hpp>
#include <sectio/sheet/compared.hpp>
#include <sectio/sheet/messages.hpp>
#include <sectio/sheet/parts.hpp>

#include <fmt/format.h>

namespace sectio {

namespace {

using page::Cell;
using page::Column;
using page::ColumnKind;

/// From one degree up to another: to a lower one through the period, where there is one.
std::optional<Interval> way_up(const Comparison& c, std::size_t from, std::size_t to) {
    const Interval way = c.degrees[to].degree.interval - c.degrees[from].degree.interval;
    if (to >= from)
        return way;
    return c.scale().period ? std::optional(way + *c.scale().period) : std::nullopt;
}

/// A table of one figure for each pair, under `heading`.
template <typename MakeCell>
page::Table pairs(const Comparison& c, std::string heading, const char* key, const char* member,
                  ColumnKind kind, MakeCell cell) {
    const auto rows = rows_of(c);
    const std::vector<SheetRow> degrees(
        rows.begin(), rows.begin() + static_cast<std::ptrdiff_t>(c.degrees.size()));
    page::Table table{key, std::move(heading), {}, {}};
    table.add(degrees, Column{"from", ColumnKind::key}.keyed("from"),
              [](const SheetRow& r) { return page::count(r.number); });
    for (const SheetRow& to : degrees)
        table.add(degrees,
                  Column{std::to_string(to.number), kind, "", to.index + 1}.keyed(
                      fmt::format("to[{}].{}", to.index, member)),
                  [&](const SheetRow& from) { return Cell(cell(from, to)); });
    return table;
}

} // namespace

Blocks matrix_part(const Comparison& c, const SheetOptions& options) {
    if (c.degrees.size() > limits::matrix_degrees)
        throw error(message::matrix_too_large, "", {"--pages"}, limits::matrix_degrees);
    const auto cents = [&](const SheetRow& from, const SheetRow& to) {
        const auto way = way_up(c, from.index, to.index);
        return way ? Cell(page::cents(*way)
                              .borne_by(half_width(from.degree))
                              .borne_by(half_width(to.degree)))
                   : Cell();
    };
    const auto ratio = [&](const SheetRow& from, const SheetRow& to) {
        const auto way = way_up(c, from.index, to.index);
        return way ? Cell(simple_ratio(*way, options.prime_limit)) : Cell();
    };
    return {
        pairs(c, "Cents from the degree of the row up to that of the column", "matrix", "cents",
              ColumnKind::figure, cents),
        pairs(c,
              fmt::format("The simplest ratio within {} cents", near_ratio_cents)
                  + (options.prime_limit ? fmt::format(", of primes up to {}", *options.prime_limit)
                                         : ""),
              "matrix_ratios", "ratio", ColumnKind::note, ratio),
        drone_table(c, options.drone.value_or(c.tonic()), options.prime_limit)};
}

} // namespace sectio
