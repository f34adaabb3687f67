// Two or more scales side by side: one axis, one table of all their degrees.

#include <sectio/page/numbers.hpp>
#include <sectio/sheet/parts.hpp>
#include <sectio/sheet/systems.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace sectio {

namespace {

using page::Cell;
using page::Column;
using page::ColumnKind;

/// One height above the tonic, and what lies there in each of the scales: the sheet's own first.
struct Height {
    Interval size;
    std::map<std::size_t, std::string> degrees;
    std::optional<Interval> uncertainty;
};

/// Rising; of equal ones those that were measured last.
bool lies_before(const Height& a, const Height& b) {
    return a.size == b.size ? !a.uncertainty && b.uncertainty : a.size < b.size;
}

/// `all` rising. Degrees that are exactly equal share a row, unless one was measured.
std::vector<Height> merged(std::vector<Height> all) {
    std::stable_sort(all.begin(), all.end(), lies_before);
    std::vector<Height> rows;
    for (Height& height : all)
        if (!rows.empty() && rows.back().size == height.size && !height.uncertainty)
            rows.back().degrees.merge(height.degrees);
        else
            rows.push_back(std::move(height));
    return rows;
}

std::string text_of(const SheetRow& row) {
    const std::string& name = row.degree->degree.name;
    return std::to_string(row.number) + (name.empty() ? "" : " " + name);
}

std::vector<Height> heights_of(const Comparison& c, const std::vector<ComparedSystem>& systems) {
    std::vector<Height> heights;
    Pitch highest = c.tonic();
    for (const SheetRow& row : rows_of(c)) {
        heights.push_back(
            {row.degree->degree.interval, {{0, text_of(row)}}, row.degree->degree.uncertainty});
        if (row.degree->pitch - highest > Interval())
            highest = row.degree->pitch;
    }
    for (std::size_t i = 0; i < systems.size(); ++i)
        for (const DegreeAt& at : systems[i].tuned.between(c.tonic(), highest))
            heights.push_back({systems[i].tuned.pitch(at) - c.tonic(),
                               {{i + 1, systems[i].degree_text(systems[i].step_at(at))}},
                               systems[i].scale().degrees[at.degree].uncertainty});
    return merged(std::move(heights));
}

std::optional<page::HalfWidth> width_of(const Height& height) {
    return height.uncertainty ? std::optional<page::HalfWidth>(*height.uncertainty) : std::nullopt;
}

page::Table height_table(const std::vector<Height>& heights,
                         const std::vector<std::string>& names) {
    page::Table table{"beside", "All degrees, from the tonic up", {}, {}};
    table.add(heights, Column{"Cents", ColumnKind::key}.keyed("cents"),
              [](const Height& h) { return page::cents(h.size).borne_by(width_of(h)); });
    for (std::size_t i = 0; i < names.size(); ++i)
        table.add(heights,
                  Column{"degree", ColumnKind::words, shortened(names[i]), i + 1}.keyed(
                      fmt::format("scales[{}].degree", i)),
                  [i](const Height& h) {
                      const auto degree = h.degrees.find(i);
                      return degree == h.degrees.end() ? Cell() : Cell(degree->second);
                  });
    return table;
}

} // namespace

Blocks beside_part(const Comparison& c, const SheetOptions& options) {
    const auto systems = compared_systems(c, options.systems);
    if (systems.empty())
        return {page::Paragraphs{
            "", "", {{page::Role::note, "Name a scale or system to stand beside this one."}}}};
    std::vector<std::string> names{c.scale().name};
    for (const ComparedSystem& system : systems)
        names.push_back(system.scale().name);
    return {scale_ruler(compare(c.tuned, {}), systems),
            height_table(heights_of(c, systems), names)};
}

} // namespace sectio
