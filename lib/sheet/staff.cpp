#include <sectio/page/numbers.hpp>
#include <sectio/sheet/parts.hpp>
#include <sectio/sheet/staff.hpp>
#include <sectio/sheet/staff_drawing.hpp>

#include <fmt/format.h>

#include <array>
#include <cstdlib>
#include <map>
#include <utility>

namespace sectio {

namespace {

using page::Column;
using page::ColumnKind;
using score::StaffNote;

std::optional<page::HalfWidth> half_width_of(const StaffNote& note) {
    if (!note.uncertainty)
        return std::nullopt;
    return page::HalfWidth(*note.uncertainty);
}

/// "A4 koron", where that is its sign, else as everywhere: "A4 −1/2".
std::string name_with_sign(const StaffNote& note) {
    const std::string_view sign = score::all_signs()[note.sign].name;
    return score::is_persian(sign)
               ? fmt::format("{}{} {}", note.pitch.step, note.pitch.octave, sign)
               : score::text_with_octave(note.pitch, score::NameStyle::unicode);
}

page::Table staff_table(const score::StaffScale& staff) {
    page::Table table{"staff", "Written notes", {}, {}};
    table.drawn = true;
    const auto add = [&](const Column& column, auto cell) { table.add(staff.notes, column, cell); };
    add(Column{"No.", ColumnKind::key}.keyed("number"),
        [](const StaffNote& n) { return page::count(n.number); });
    add(Column{"Name", ColumnKind::words}.keyed("name"), [](const StaffNote& n) { return n.name; });
    add(Column{"Written", ColumnKind::note}, [](const StaffNote& n) { return name_with_sign(n); });
    add(Column{}.keyed("note").hidden(), [](const StaffNote& n) {
        return score::text_with_octave(n.pitch, score::NameStyle::ascii);
    });
    add(Column{}.keyed("accidental").hidden(),
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
                              : staff.style == SignStyle::comma
                                  ? "53 equal steps (commas) from the tonic"
                                  : "24 equal steps " + reference;
    return "Over each note: cents by which the degree sounds higher (+) or lower (−) than what is "
           "written, the nearest of "
           + steps + ". Below it: number and name of the degree. A sign holds for its note alone.";
}

/// What signs are called. Of commas: Arel, Ezgi and Uzdilek (common practice, from memory).
constexpr std::pair<std::string_view, std::string_view> comma_names[]{
    {"quarter-flat", "koma flat"},
    {"slash-flat", "bakiye flat"},
    {"flat", "küçük mücennep flat"},
    {"double-slash-flat", "büyük mücennep flat"},
    {"quarter-sharp", "koma sharp"},
    {"sharp", "bakiye sharp"},
    {"slash-quarter-sharp", "küçük mücennep sharp"},
    {"slash-sharp", "büyük mücennep sharp"}};
constexpr std::pair<std::string_view, std::string_view> other_names[]{
    {"quarter-flat", "half flat (♭ reversed)"},
    {"three-quarters-flat", "one and a half flats"},
    {"quarter-sharp", "half sharp (one stem)"},
    {"three-quarters-sharp", "one and a half sharps (three stems)"},
    {"flat-flat", "double flat"},
    {"double-sharp", "double sharp"}};

std::string name_of_sign(const StaffNote& note, SignStyle style) {
    const std::string_view sign = score::all_signs()[note.sign].name;
    const auto named = [&](const auto& names) {
        for (const auto& [known, name] : names)
            if (known == sign)
                return std::string(name);
        return std::string(sign.substr(0, sign.find('-')));
    };
    return style == SignStyle::comma ? named(comma_names) : named(other_names);
}

/// "4 commas lower", "a quarter tone higher".
std::string size_of_sign(const score::Alteration& alteration) {
    const Rational size = boost::abs(alteration.amount);
    const std::string way = alteration.amount < 0 ? " lower" : " higher";
    if (alteration.unit == score::AlterationUnit::comma)
        return fmt::format("{} comma{}", size.numerator().str(), size == Rational(1) ? "" : "s")
               + way;
    constexpr std::array sizes{"", "a quarter tone", "a half tone", "three quarter tones",
                               "a whole tone"};
    return sizes[(size * 2).numerator().convert_to<std::size_t>()] + way;
}

/// Each sign of the scale in words; plain ones alone need none.
std::string meaning_of_signs(const score::StaffScale& staff) {
    std::map<Rational, std::string> signs;
    bool plain = true;
    for (const StaffNote& note : staff.notes)
        if (note.pitch.alteration.amount != Rational(0)) {
            signs[note.pitch.alteration.amount] =
                name_of_sign(note, staff.style) + ", " + size_of_sign(note.pitch.alteration);
            plain = plain && note.pitch.alteration.is_plain()
                    && std::abs(score::whole_semitones(note.pitch.alteration)) == 1;
        }
    std::string text;
    for (const auto& [amount, words] : signs)
        text += (text.empty() ? "Signs: " : "; ") + words;
    return plain ? "" : text + ".";
}

/// Source of the eight signs: lib/score/signs.cpp.
constexpr const char* comma_signs =
    "The signs of 1, 4, 5 and 8 commas are those of Arel, Ezgi and Uzdilek: a whole tone between "
    "letters has 9 commas, a half tone 4. A small number says the commas where they have no sign.";
/// A. N. Vaziri's signs (common practice, no source).
constexpr const char* persian_signs =
    "Koron and sori are the signs of Persian notation: about a quarter tone, and players vary. The "
    "cents over the note say by how much.";
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
    if (staff.style == SignStyle::persian)
        notes.paragraphs.push_back({page::Role::note, persian_signs});
    if (const std::string signs = meaning_of_signs(staff); !signs.empty())
        notes.paragraphs.push_back({page::Role::note, signs});
    if (staff.clef == score::Clef::octave_treble)
        notes.paragraphs.push_back({page::Role::note, octave_clef});
    blocks.emplace_back(std::move(notes));
    return blocks;
}

Blocks staff_part(const Comparison& comparison, const SheetOptions& options) {
    return staff_blocks(comparison.tuned, options.staff());
}

} // namespace sectio
