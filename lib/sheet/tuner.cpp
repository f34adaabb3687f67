#include <sectio/sheet/compared.hpp>
#include <sectio/sheet/parts.hpp>

#include <fmt/format.h>

namespace sectio {

namespace {

using page::Cell;
using page::Column;
using page::ColumnKind;

/// Tonics of a tuner's twelve notes, as keys of the octave from middle C.
constexpr int first_key = 60, keys = 12;

/// The scale from each of twelve keys, as far off the key as its own tonic is.
std::vector<TunedScale> transposed(const Comparison& c) {
    std::vector<TunedScale> out;
    const Interval off = c.degrees.empty() ? Interval() : tonic_of(c).deviation;
    for (int key = first_key; key < first_key + keys; ++key)
        out.emplace_back(c.scale(), Tonic(StatedPitch(usual_note(key)), c.a4() + off), c.a4());
    return out;
}

} // namespace

Blocks tuner_part(const Comparison& c, const SheetOptions&) {
    page::Table table{"tuner", "", {}, {}};
    const auto all = rows_of(c);
    const std::vector<SheetRow> rows(all.begin(),
                                     all.begin() + static_cast<std::ptrdiff_t>(c.degrees.size()));
    table.add(rows, Column{"No.", ColumnKind::key}.keyed("degree"),
              [](const SheetRow& r) { return page::count(r.number); });
    table.add(rows, Column{"Name", ColumnKind::words}.keyed("name"),
              [](const SheetRow& r) { return r.degree->degree.name; });
    table.add(
        rows, Column{"needle", ColumnKind::figure, "", 0, true}.keyed("deviation_cents"),
        [](const SheetRow& r) {
            return page::cents(r.degree->deviation).borne_by(half_width(r.degree)).with_sign();
        });
    const auto scales = transposed(c);
    for (std::size_t i = 0; i < scales.size(); ++i)
        table.add(rows,
                  Column{scales[i].tonic().note.name.text(true), ColumnKind::note,
                         "note, from the tonic", 1}
                      .keyed(fmt::format("notes[{}]", i)),
                  [&](const SheetRow& r) { // As tuners name keys, whatever the scale would spell.
                      return usual_note(scales[i].degrees()[r.index].key).name.text(true);
                  });
    return {
        table,
        page::Paragraphs{
            "",
            "",
            {{page::Role::note,
              "Choose the column of your tonic. Play the degree so that the tuner shows the note "
              "and its needle stands so many cents to the right (+) or to the left (−) of the "
              "middle."}}}};
}

} // namespace sectio
