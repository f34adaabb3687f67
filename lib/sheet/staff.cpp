#include <sectio/page/figures.hpp>
#include <sectio/sheet/parts.hpp>
#include <sectio/sheet/staff.hpp>
#include <sectio/sheet/staff_drawing.hpp>

namespace sectio {

namespace {

using page::Column;
using page::ColumnKind;
using score::SignStyle;
using score::StaffNote;

std::optional<page::HalfWidth> half_width_of(const StaffNote& note) {
    if (!note.uncertainty)
        return std::nullopt;
    return page::HalfWidth(*note.uncertainty);
}

page::Table staff_table(const score::StaffScale& staff) {
    page::Table table{"staff", "Written notes", {}, {}};
    table.drawn = true;
    const auto add = [&](const Column& column, auto cell) { table.add(staff.notes, column, cell); };
    add(Column{"No.", ColumnKind::key}.keyed("number"),
        [](const StaffNote& n) { return page::count(n.number); });
    add(Column{"Name", ColumnKind::words}.keyed("name"), [](const StaffNote& n) { return n.name; });
    add(Column{"Written", ColumnKind::note}, [](const StaffNote& n) {
        return score::text_with_octave(n.pitch, score::NameStyle::unicode);
    });
    add(Column{}.keyed("note", "").hidden(), [](const StaffNote& n) {
        return score::text_with_octave(n.pitch, score::NameStyle::ascii);
    });
    add(Column{}.keyed("accidental", "").hidden(),
        [](const StaffNote& n) { return std::string(score::all_signs()[n.sign].name); });
    add(Column{"cents", ColumnKind::figure, "", 0, true}.keyed("deviation_cents"),
        [](const StaffNote& n) {
            return page::cents(n.deviation).borne_by(half_width_of(n)).with_sign();
        });
    return table;
}

std::string meaning_of_figures(const score::StaffScale& staff, const TunedScale& scale) {
    const std::string reference = "from A4 " + hertz_text(scale.a4());
    const std::string steps = staff.style == SignStyle::plain ? "12 equal steps " + reference
                              : staff.style == SignStyle::quarter
                                  ? "24 equal steps " + reference
                                  : "53 equal steps (commas) from the tonic";
    return "Over each note: cents by which the degree sounds higher (+) or lower (−) than what is "
           "written, the nearest of "
           + steps + ". Below it: number and name of the degree. A sign holds for its note alone.";
}

/// Source of the eight signs: lib/score/signs.cpp.
constexpr const char* comma_signs =
    "The signs of 1, 4, 5 and 8 commas are those of Arel, Ezgi and Uzdilek: a whole tone between "
    "letters has 9 commas, a half tone 4. A small number says the commas where they have no sign.";
constexpr const char* octave_clef = "The small 8 below the clef: it sounds an octave lower than it "
                                    "looks.";

} // namespace

std::vector<page::Block> staff_blocks(const TunedScale& scale, const StaffOptions& options) {
    const score::StaffScale staff = score::staff_scale(scale, options.signs, options.clef);
    std::vector<page::Block> blocks;
    for (page::Drawing& drawing : staff_drawings(staff, options.large))
        blocks.emplace_back(std::move(drawing));
    if (auto legend = sign_legend(staff, options.large))
        blocks.emplace_back(std::move(*legend));
    blocks.emplace_back(staff_table(staff));
    page::Paragraphs notes{"", "", {{page::Role::note, meaning_of_figures(staff, scale)}}};
    if (staff.style == SignStyle::comma)
        notes.paragraphs.push_back({page::Role::note, comma_signs});
    if (staff.clef == score::Clef::octave_treble)
        notes.paragraphs.push_back({page::Role::note, octave_clef});
    blocks.emplace_back(std::move(notes));
    return blocks;
}

Blocks staff_part(const Comparison& comparison, const SheetOptions& options) {
    return staff_blocks(comparison.tuned, options.staff);
}

} // namespace sectio
