#include <sectio/instrument/measured_page.hpp>

#include <optional>

namespace sectio {

namespace {

using page::Column, page::ColumnKind, page::HalfWidth;

/// A half width of cents as one of hertz: a frequency is shown as finely as it is known.
std::optional<HalfWidth> in_hertz(const Pitch& pitch, const std::optional<Interval>& width) {
    constexpr int digits = 6;
    if (!width)
        return std::nullopt;
    const Rational up = parse_decimal((pitch + *width).hertz(digits));
    return HalfWidth(up - parse_decimal(pitch.hertz(digits)) + Rational(1, power_of_ten(digits)));
}

std::optional<HalfWidth> in_cents(const std::optional<Interval>& width) {
    return width ? std::optional(HalfWidth(*width)) : std::nullopt;
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
        const Pitch pitch = *list.zero + p.above.figure;
        return page::hertz(pitch).borne_by(in_hertz(pitch, p.above.half_width));
    });
    table.add(list.pitches, Column{"Cents"}.keyed("cents"), [](const ListedPitch& p) {
        return page::cents(p.above.figure).borne_by(in_cents(p.above.half_width));
    });
    table.add(list.pitches, Column{"±"}.keyed("uncertainty_cents"),
              [](const ListedPitch& p) -> page::Cell {
                  if (!p.above.half_width)
                      return {};
                  return page::margin(*p.above.half_width);
              });
    add_keys(table, list, a4);
    return table;
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
        facts.facts.push_back({"Cents above", *list.tonic, "tonic"});
    if (list.zero)
        facts.facts.push_back({"Reference A4", page::hertz(a4).in("Hz"), "reference_hz"});
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
