#include <sectio/base/limits.hpp>
#include <sectio/page/numbers.hpp>
#include <sectio/sheet/compared.hpp>
#include <sectio/sheet/sheet.hpp>
#include <sectio/sheet/systems.hpp>

#include <algorithm>

namespace sectio {

namespace {

/// Where the ruler ends: at the period, or at the highest degree of a set without one. It begins at
/// the tonic; a set that reaches below it has none.
Interval ruler_span(const Comparison& c) {
    if (c.scale().period)
        return *c.scale().period;
    if (c.tuned.tonic_index() > 0)
        return {};
    Interval highest;
    for (const ComparedDegree& d : c.degrees)
        highest = std::max(highest, d.degree.interval);
    return highest;
}

double fraction_of(const Interval& part, const Interval& whole) {
    return part.is_unison() || whole.is_unison() ? 0
                                                 : part.estimate().value / whole.estimate().value;
}

/// Names of the keys from the tonic up, as the degrees spell them where one lies there.
std::vector<std::string> key_names(const Comparison& c, long count) {
    const int tonic = key_of(tonic_of(c).note);
    std::vector<std::string> names;
    for (int key = tonic; key <= tonic + count; ++key) {
        const auto spelled = std::find_if(c.degrees.begin(), c.degrees.end(),
                                          [&](const auto& d) { return key_of(d.note) == key; });
        const bool ends = (key - tonic) % 12 == 0;
        const NoteInOctave note = ends                         ? tonic_of(c).note
                                  : spelled != c.degrees.end() ? spelled->note
                                                               : usual_note(key);
        names.push_back(note.name.text(true));
    }
    return names;
}

} // namespace

page::Ruler scale_ruler(const Comparison& c, const std::vector<ComparedSystem>& systems) {
    page::Ruler ruler;
    ruler.description = "The degrees between the marks of what they are compared with";
    const Interval span = ruler_span(c);
    if (!(span > Interval()))
        return ruler;
    for (const SheetRow& r : rows_of(c))
        ruler.marks.push_back({std::clamp(fraction_of(r.degree->degree.interval, span), 0.0, 1.0),
                               std::to_string(r.number), one_line(r.degree->degree.name)});
    for (const EqualDivision& division : c.divisions) {
        const Interval step = division.at(1);
        const Integer count = whole_periods(span, step);
        page::Ruler::Line line{division_name(division),
                               fraction_of(step, span),
                               count > limits::ruler_marks ? 0 : count.convert_to<long>(),
                               {}};
        if (steps_are_keys(c, division))
            line.names = key_names(c, line.count);
        ruler.lines.push_back(std::move(line));
    }
    for (const ComparedSystem& system : systems)
        ruler.lines.push_back(system_line(system, span));
    return ruler;
}

} // namespace sectio
