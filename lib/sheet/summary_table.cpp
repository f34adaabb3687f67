#include <sectio/page/numbers.hpp>
#include <sectio/sheet/compared.hpp>
#include <sectio/sheet/sheet.hpp>
#include <sectio/sheet/systems.hpp>

namespace sectio {

namespace {

using page::Cell;
using page::Column;
using page::ColumnKind;

/// What a division or a system makes of the whole scale.
struct Summary {
    Cell division, system;
    std::string name;
    const Interval& max_error;
    std::size_t worst;
    const std::vector<Interval>& errors;
    const ComparedSystem* of = nullptr; ///< whose own half widths count too
};

std::vector<Summary> summaries_of(const Comparison& c, const std::vector<ComparedSystem>& systems) {
    std::vector<Summary> all;
    for (const DivisionSummary& s : c.summaries)
        all.push_back({division_cell(s.division),
                       {},
                       division_name(s.division),
                       s.max_error,
                       s.worst,
                       s.errors});
    for (const ComparedSystem& s : systems) {
        const Scale& scale = s.scale();
        all.push_back({{},
                       scale.id.empty() ? scale.name : scale.id,
                       shortened(scale.name),
                       s.max_error,
                       s.worst,
                       s.errors,
                       &s});
    }
    return all;
}

/// Errors rest on every degree, hence on the least certain one.
page::Number borne_by_all(page::Number figure, const Comparison& c, const Summary& s) {
    for (const ComparedDegree& d : c.degrees)
        figure = std::move(figure).borne_by(half_width(&d));
    return s.of ? s.of->borne_by_all(figure) : figure;
}

} // namespace

page::Table summary_table(const Comparison& c, const std::vector<ComparedSystem>& systems) {
    const std::vector<Summary> summaries = summaries_of(c, systems);
    page::Table table{"summary", "", {}, {}};
    const auto add = [&](const Column& column, auto cell) { table.add(summaries, column, cell); };
    const auto largest = [&](const Summary& s) {
        return borne_by_all(page::cents(s.max_error), c, s);
    };
    const auto rms = [&](const Summary& s) {
        return borne_by_all(page::Number(root_mean_square(s.errors)), c, s);
    };
    const std::string group = "Error in cents";
    add(Column{}.keyed("division").hidden(), [](const Summary& s) { return s.division; });
    if (!systems.empty())
        add(Column{}.keyed("system").hidden(), [](const Summary& s) { return s.system; });
    add(Column{}.keyed("max_error_cents").hidden(), largest);
    add(Column{systems.empty() ? "Equal steps" : "Compared with", ColumnKind::words},
        [&](const Summary& s) {
            return systems.empty() || s.of ? s.name : s.name + " equal steps";
        });
    add(Column{"RMS", ColumnKind::figure, group}.keyed("rms_error_cents"), rms);
    add(Column{"largest", ColumnKind::figure, group}, largest);
    add(Column{}.keyed("worst").hidden(),
        [&](const Summary& s) { return page::count(index_from_tonic(c, s.worst)); });
    add(Column{"at degree", ColumnKind::words}, [&](const Summary& s) {
        if (s.worst >= c.degrees.size() || s.max_error.is_unison())
            return std::string(); // where all are 0 nothing is worst
        const std::string name = c.degrees[s.worst].degree.name;
        return std::to_string(c.tuned.number(s.worst)) + (name.empty() ? "" : " " + name);
    });
    return table;
}

} // namespace sectio
