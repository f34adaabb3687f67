#include <sectio/sheet/compared.hpp>
#include <sectio/sheet/parts.hpp>
#include <sectio/sheet/step_names.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio {

namespace {

using page::Cell;
using page::Column;
using page::ColumnKind;

/// Steps of one division that a table still shows.
constexpr long most_steps = 400;

/// One step of the division, and the degrees whose nearest step it is.
struct Step {
    long number;
    Interval size;
    TunedDegree key;
    std::vector<const ComparedDegree*> degrees;
    std::size_t first = 0;   ///< number of the first of the degrees
    std::string in_theory{}; ///< what the catalogue calls it
};

std::vector<Step> steps_of(const Comparison& c, std::size_t division, long count,
                           const Catalogue& catalogue) {
    std::vector<Step> steps;
    for (long k = 0; k <= count; ++k) {
        const Interval size = c.divisions[division].at(k);
        const KeyedPitch keyed = nearest_key(c.tonic() + size, c.a4());
        steps.push_back(
            {k, size, {c.tonic() + size, keyed.key, keyed.deviation, usual_note(keyed.key)}, {}});
    }
    for (auto& [step, name] : step_names(c.divisions[division], count, catalogue))
        steps[static_cast<std::size_t>(step)].in_theory = std::move(name);
    for (const SheetRow& r : rows_of(c)) {
        const Integer& step = r.degree->against[division].step;
        if (r.number < 1 || step < 0 || step > count)
            continue;
        Step& at = steps[step.convert_to<std::size_t>()];
        if (at.degrees.empty())
            at.first = static_cast<std::size_t>(r.number);
        at.degrees.push_back(r.degree);
    }
    return steps;
}

constexpr const char* meaning_of_names =
    "In theory: the catalogue's interval that the step stands for, at most a quarter of a step "
    "away; of several the one with the simplest ratio of primes up to 5, else of any. Degree: the "
    "degrees of the scale that lie nearest to the step. Error: step minus the first of them.";

/// The division that is shown: the first asked for whose steps are not the keys.
std::optional<std::size_t> shown_division(const Comparison& c) {
    for (std::size_t i = 0; i < c.divisions.size(); ++i)
        if (!steps_are_keys(c, c.divisions[i]))
            return i;
    return std::nullopt;
}

std::string degree_text(const Step& s) {
    std::string text;
    for (std::size_t i = 0; i < s.degrees.size(); ++i)
        text +=
            fmt::format("{}{}{}{}", i ? ", " : "", s.first + i,
                        s.degrees[i]->degree.name.empty() ? "" : " ", s.degrees[i]->degree.name);
    return text;
}

page::Table step_table(const std::vector<Step>& steps, std::size_t division) {
    page::Table table{"steps", "", {}, {}};
    const auto add = [&](const Column& column, auto cell) { table.add(steps, column, cell); };
    add(Column{"Step", ColumnKind::key}.keyed("step"),
        [](const Step& s) { return page::count(s.number); });
    add(Column{"Cents"}.keyed("cents"), [](const Step& s) { return page::cents(s.size); });
    add(Column{"In theory", ColumnKind::words}.keyed("in_theory"),
        [](const Step& s) { return s.in_theory; });
    const std::string group = "Key, deviation";
    add(Column{"", ColumnKind::note, group}.keyed("note"),
        [](const Step& s) { return page::Note{s.key.note}; });
    add(Column{"cents", ColumnKind::figure, group}.keyed("deviation_cents"),
        [](const Step& s) { return page::cents(s.key.deviation).with_sign(); });
    add(Column{"Degree", ColumnKind::words, "", 0, true}.keyed("degrees"),
        [](const Step& s) { return degree_text(s); });
    add(Column{"error"}.keyed("error_cents"), [&](const Step& s) {
        return s.degrees.empty() ? Cell()
                                 : Cell(page::cents(s.degrees[0]->against[division].error)
                                            .borne_by(half_width(s.degrees[0]))
                                            .with_sign());
    });
    return table;
}

} // namespace

Blocks division_part(const Comparison& c, const SheetOptions& options) {
    const auto division = shown_division(c);
    if (!division)
        return {};
    const Interval step = c.divisions[*division].at(1);
    const Interval span = c.scale().period.value_or(Interval::octave());
    const Integer count = whole_periods(span, step);
    if (count > most_steps)
        return {page::Paragraphs{
            "",
            "",
            {{page::Role::note,
              fmt::format("{} steps are more than a table shows.", count.str())}}}};
    page::Table table =
        step_table(steps_of(c, *division, count.convert_to<long>(), options.names()), *division);
    table.heading = division_name(c.divisions[*division]) + " steps from the tonic";
    return {table, page::Paragraphs{"", "", {{page::Role::note, meaning_of_names}}}};
}

} // namespace sectio
