#include <sectio/instrument/measured_page.hpp>

#include <optional>

namespace sectio {

namespace {

using page::Column, page::ColumnKind, page::HalfWidth;

std::optional<HalfWidth> in_cents(const std::optional<Interval>& width) {
    return width ? std::optional(HalfWidth(*width)) : std::nullopt;
}

page::Cell margin_cell(const std::optional<Interval>& width) {
    return width ? page::Cell(page::margin(*width)) : page::Cell();
}

bool any_label(const PitchList& list) {
    for (const ListedPitch& pitch : list.pitches)
        if (!pitch.label.empty())
            return true;
    return false;
}

void add_keys(page::Table& table, const PitchList& list, const Pitch& a4) {
    const auto keyed = [&list, &a4](const ListedPitch& p) {
        return nearest_key(*list.zero + p.above.figure, a4);
    };
    table.add(list.pitches, Column{"Note", ColumnKind::note}.keyed("note"),
              [&](const ListedPitch& p) -> page::Cell {
                  if (!list.zero)
                      return {};
                  return page::Note{usual_note(keyed(p).key)};
              });
    table.add(list.pitches, Column{"Deviation"}.keyed("deviation_cents"),
              [&](const ListedPitch& p) -> page::Cell {
                  if (!list.zero)
                      return {};
                  return page::cents(keyed(p).deviation)
                      .borne_by(in_cents(p.above.half_width))
                      .with_sign();
              });
}

/// What the frequency and the deviation may be off, beside what the cents above another may.
void add_own_errors(page::Table& table, const PitchList& list) {
    Column own = Column{"±"}.keyed("pitch_uncertainty_cents");
    own.shown = list.tonic_at || !list.zero_error.exact();
    table.add(list.pitches, own,
              [](const ListedPitch& p) { return margin_cell(p.above.half_width); });
    table.add(list.pitches, Column{}.keyed("basis").hidden(),
              [](const ListedPitch& p) { return std::string(text(p.above.basis)); });
}

/// For who reads the table as a scale again, in every row.
void add_rests(page::Table& table, const PitchList& list) {
    const auto every_row = [&](const char* field, const page::Cell& cell) {
        table.add(list.pitches, Column{}.keyed("", field).hidden(),
                  [&](const ListedPitch&) { return cell; });
    };
    every_row("tonic", list.tonic ? page::Cell(list.tonic->text()) : page::Cell());
    every_row("period",
              list.period ? page::Cell(page::Expression{*list.period, ""}) : page::Cell());
    every_row("apart_cents", list.period && list.same_within
                                 ? page::Cell(page::cents(*list.same_within))
                                 : page::Cell());
}

} // namespace

page::Table pitch_table(const PitchList& list, const Pitch& a4) {
    page::Table table;
    table.key = "pitches";
    table.heading = "Pitches";
    Column label{"", ColumnKind::key};
    label.head = any_label(list) ? "Pitch" : "";
    table.add(list.pitches, label.keyed("label"), [](const ListedPitch& p) { return p.label; });
    table.add(list.pitches, Column{"Hz"}.keyed("hz"), [&](const ListedPitch& p) -> page::Cell {
        if (!list.zero)
            return {};
        return page::hertz(*list.zero + p.above.figure, p.above.half_width);
    });
    table.add(list.pitches, Column{"Cents"}.keyed("cents"), [&](const ListedPitch& p) {
        return page::cents(p.above.figure).borne_by(in_cents(half_width_above_tonic(list, p)));
    });
    table.add(list.pitches, Column{"±"}.keyed("uncertainty_cents"),
              [&](const ListedPitch& p) { return margin_cell(half_width_above_tonic(list, p)); });
    add_keys(table, list, a4);
    add_own_errors(table, list);
    if (list.zero)
        table.add(list.pitches, Column{}.keyed("", "reference_hz").hidden(),
                  [&](const ListedPitch&) { return page::hertz(a4); });
    return table;
}

void add_period(page::Facts& facts, const std::optional<Interval>& period,
                const std::optional<Interval>& same_within) {
    if (!period)
        return;
    facts.facts.push_back({"", page::Expression{*period, ""}, "period"});
    if (same_within)
        facts.facts.push_back({"", page::cents(*same_within), "apart_cents"});
}

page::Page measured_page(const PitchList& list, const Pitch& a4, const std::string& kind,
                         page::Table table) {
    page::Page page;
    page.title = list.name;
    page.kind = kind;
    page::Facts facts;
    facts.facts.push_back({"", list.name, "name"});
    if (!list.source.empty())
        facts.facts.push_back({"Source", list.source, "source"});
    if (list.tonic)
        facts.facts.push_back({"Cents above", list.tonic->text(), "tonic"});
    if (list.zero)
        facts.facts.push_back({"Reference A4", page::hertz(a4).in("Hz"), "reference_hz"});
    add_period(facts, list.period, list.same_within);
    add_rests(table, list);
    page.blocks.push_back(facts);
    page.blocks.push_back(std::move(table));
    page::Paragraphs remarks{"remarks", "", {}};
    for (const std::string& remark : list.remarks)
        remarks.paragraphs.push_back({page::Role::remark, remark});
    if (!remarks.paragraphs.empty())
        page.blocks.push_back(remarks);
    return page;
}

} // namespace sectio
