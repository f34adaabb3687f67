#include <sectio/instrument/fret_page.hpp>
#include <sectio/scale/comparison.hpp>

#include <algorithm>

namespace sectio {

namespace {

using page::Column, page::ColumnKind, page::Number;

/// Of one string: what the frets cost it.
struct Cost {
    std::vector<Interval> errors;
    Interval worst;
};

Cost cost_of(const FretPlan& plan, std::size_t string) {
    Cost cost{plan.errors(string), {}};
    for (const Interval& error : cost.errors)
        cost.worst = std::max(cost.worst, absolute(error));
    return cost;
}

/// On a neck that is known the strings between the outer ones have lengths between theirs.
Number length_of(const FretSheet& sheet, std::size_t string) {
    const auto& fretted = sheet.plan.boards.front().strings;
    const auto at = std::find(fretted.begin(), fretted.end(), string);
    if (!sheet.neck || at == fretted.end())
        return page::number(sheet.plan.strings[string].length.millimetres());
    return Number(sheet.neck->length_at(
        Rational(at - fretted.begin(), static_cast<std::ptrdiff_t>(fretted.size()) - 1)));
}

} // namespace

page::Table string_table(const FretSheet& sheet) {
    std::vector<std::size_t> strings(sheet.plan.strings.size());
    for (std::size_t i = 0; i < strings.size(); ++i)
        strings[i] = i;
    const auto& all = sheet.plan.strings;
    page::Table table;
    table.key = "strings";
    table.heading = "Strings";
    table.add(strings, Column{"String", ColumnKind::words}.keyed("name", ""),
              [&](std::size_t i) { return page::Cell(all[i].name); });
    table.add(strings, Column{"Open", ColumnKind::words}.keyed("open", ""), [&](std::size_t i) {
        return page::Cell(i < sheet.opens.size() ? sheet.opens[i] : "");
    });
    table.add(strings, Column{"Length in mm"}.keyed("length_mm", ""),
              [&](std::size_t i) { return length_of(sheet, i).shown_with(bench_digits); });
    table.add(strings,
              Column{"worst", ColumnKind::figure, "Cost in cents"}.keyed("worst_error_cents", ""),
              [&](std::size_t i) -> page::Cell {
                  return all[i].fretted ? page::Cell(page::cents(cost_of(sheet.plan, i).worst))
                                        : page::Cell();
              });
    table.add(strings,
              Column{"rms", ColumnKind::figure, "Cost in cents"}.keyed("rms_error_cents", ""),
              [&](std::size_t i) -> page::Cell {
                  if (!all[i].fretted)
                      return {};
                  return Number(root_mean_square(cost_of(sheet.plan, i).errors));
              });
    return table;
}

} // namespace sectio
