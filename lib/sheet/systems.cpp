#include <sectio/base/folded.hpp>
#include <sectio/page/numbers.hpp>
#include <sectio/scale/references.hpp>
#include <sectio/sheet/systems.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio {

namespace {

using page::Cell;
using page::Column;
using page::ColumnKind;

SystemStep nearest_step(const TunedScale& system, const ComparedDegree& degree) {
    const NearestDegree nearest = system.nearest(degree.pitch);
    const Integer size(system.scale().degrees.size());
    const bool measured =
        degree.degree.uncertainty || system.scale().degrees[nearest.at.degree].uncertainty;
    return {system.number(nearest.at.degree) + nearest.at.period * size, nearest.at, -nearest.rest,
            nearest.rest.is_unison() && !measured};
}

/// The largest error and what the RMS error is made of; the tonic and the period are left out.
void sum_up(ComparedSystem& system, const Comparison& c) {
    for (std::size_t i = 0; i < c.degrees.size(); ++i) {
        if (c.degrees[i].degree.interval.is_unison())
            continue;
        system.errors.push_back(system.steps[i].error);
        if (const Interval size = absolute(system.steps[i].error); size > system.max_error)
            system.max_error = size, system.worst = i;
    }
}

/// "turkish_24": of the id, or of a file's own name, what a header of CSV holds anywhere.
std::string field_name(const Scale& scale) {
    std::string name = scale.id.empty() ? folded(one_line(scale.name)) : scale.id;
    for (char& c : name)
        if (std::string_view(" -,;.:'\"()/\t").find(c) != std::string_view::npos)
            c = '_';
    return name;
}

/// The columns of one system.
class SystemColumns {
  public:
    SystemColumns(page::Table& table, const Comparison& c, const ComparedSystem& system,
                  std::size_t index)
        : table_(table), rows_(rows_of(c)), system_(system), index_(index),
          at_(fmt::format("against[{}].", index)), field_(field_name(system.scale())) {}

    void add() {
        hidden("system", "", [this](const SheetRow&) {
            return system_.scale().id.empty() ? system_.scale().name : system_.scale().id;
        });
        hidden("degree", "degree_" + field_,
               [this](const SheetRow& r) { return page::Count{step(r).number}; });
        hidden("degree_name", "",
               [this](const SheetRow& r) { return system_.degree_name(step(r)); });
        hidden("degree_cents", "degree_" + field_ + "_cents", [this](const SheetRow& r) {
            return page::cents(r.degree->degree.interval + step(r).error)
                .borne_by(system_.half_width(step(r)));
        });
        hidden("error_cents", "error_" + field_ + "_cents",
               [this](const SheetRow& r) { return error(r); });
        hidden("equal", "", [this](const SheetRow& r) { return page::YesNo{step(r).equal}; });
        shown("degree", ColumnKind::words,
              [this](const SheetRow& r) { return system_.degree_text(step(r)); });
        shown("error", ColumnKind::figure,
              [this](const SheetRow& r) { return step(r).equal ? Cell("=") : Cell(error(r)); });
    }

  private:
    const SystemStep& step(const SheetRow& r) const { return system_.steps[r.index]; }
    page::Number error(const SheetRow& r) const {
        return page::cents(step(r).error)
            .borne_by(half_width(r.degree))
            .borne_by(system_.half_width(step(r)))
            .with_sign();
    }
    template <typename MakeCell>
    void hidden(const char* key, const std::string& field, MakeCell cell) {
        table_.add(rows_, Column{}.keyed(at_ + key, field).hidden(), cell);
    }
    template <typename MakeCell>
    void shown(const char* head, ColumnKind kind, MakeCell cell) {
        table_.add(rows_, Column{head, kind, shortened(system_.scale().name), index_ + 1}, cell);
    }

    page::Table& table_;
    std::vector<SheetRow> rows_;
    const ComparedSystem& system_;
    std::size_t index_;
    std::string at_, field_;
};

} // namespace

Scale counted_from(Scale system, std::string_view name) {
    auto& degrees = system.degrees;
    const auto start = std::find_if(degrees.begin(), degrees.end(), [&](const Degree& degree) {
        return !name.empty()
               && (folded(degree.name) == folded(name) || folded(degree.note) == folded(name));
    });
    if (start == degrees.end() || !system.period || start->interval.is_unison())
        return system;
    const Interval base = start->interval;
    std::for_each(degrees.begin(), start, [&](Degree& degree) {
        degree.interval = degree.interval + *system.period;
        if (!degree.name.empty())
            degree.name += *system.period == Interval::octave() ? " 8va" : " ′";
    });
    std::rotate(degrees.begin(), start, degrees.end());
    for (Degree& degree : degrees)
        degree.interval = degree.interval - base, degree.written.clear();
    system.closing.name =
        degrees.front().name + (*system.period == Interval::octave() ? " 8va" : " ′");
    return system;
}

SystemStep ComparedSystem::step_at(const DegreeAt& at) const {
    return {tuned.number(at.degree) + at.period * Integer(scale().degrees.size()), at, {}, false};
}

const std::string& ComparedSystem::degree_name(const SystemStep& step) const {
    const bool closes = step.at.degree == tuned.tonic_index() && step.at.period > 0;
    return closes && !scale().closing.name.empty() ? scale().closing.name
                                                   : scale().degrees[step.at.degree].name;
}

std::string ComparedSystem::degree_text(const SystemStep& step) const {
    const std::string name = one_line(degree_name(step));
    return step.number.str() + (name.empty() ? "" : " " + name);
}

std::optional<page::HalfWidth> ComparedSystem::half_width(const SystemStep& step) const {
    const auto& width = scale().degrees[step.at.degree].uncertainty;
    return width ? std::optional<page::HalfWidth>(*width) : std::nullopt;
}

page::Number ComparedSystem::borne_by_all(page::Number figure) const {
    for (const SystemStep& step : steps)
        figure = std::move(figure).borne_by(half_width(step));
    return figure;
}

std::vector<ComparedSystem> compared_systems(const Comparison& c,
                                             const std::vector<Scale>& systems) {
    std::vector<ComparedSystem> compared;
    for (const Scale& scale : systems) {
        ComparedSystem system{TunedScale(scale, c.tuned.tonic(), c.a4()), {}, {}, 0, {}};
        for (const SheetRow& row : rows_of(c))
            system.steps.push_back(nearest_step(system.tuned, *row.degree));
        sum_up(system, c);
        compared.push_back(std::move(system));
    }
    return compared;
}

void add_systems(page::Table& table, const Comparison& c,
                 const std::vector<ComparedSystem>& systems) {
    for (std::size_t i = 0; i < systems.size(); ++i)
        SystemColumns(table, c, systems[i], c.divisions.size() + i).add();
}

page::Ruler::Line system_line(const ComparedSystem& system, const Interval& span) {
    page::Ruler::Line line{system.scale().name, 0, 0, {}, {}};
    const Pitch& tonic = system.tuned.tonic().pitch;
    for (const DegreeAt& at : system.tuned.between(tonic, tonic + span)) {
        const Interval place = system.tuned.pitch(at) - tonic;
        line.places.push_back(
            place.is_unison() ? 0 : std::min(1.0, place.estimate().value / span.estimate().value));
        const SystemStep step = system.step_at(at);
        const std::string name = one_line(system.degree_name(step));
        line.names.push_back(name.empty() ? step.number.str() : name);
    }
    return line;
}

std::vector<page::Paragraph> system_notes(const std::vector<ComparedSystem>& systems, bool table,
                                          const Catalogue& catalogue) {
    std::vector<page::Paragraph> notes;
    if (table && !systems.empty())
        notes.push_back(
            {page::Role::note,
             "Degree and error under the name of a scale or system: its nearest degree, both from "
             "the same tonic, and that degree minus the one of the row: − where the system is too "
             "low. = stands where both are exactly equal."});
    for (const ComparedSystem& system : systems)
        if (!system.scale().source.empty())
            notes.push_back(
                {page::Role::source,
                 system.scale().name + ": " + with_references(system.scale().source, catalogue)});
    return notes;
}

} // namespace sectio
