#include <sectio/instrument/fret_page.hpp>
#include <sectio/instrument/fret_template.hpp>
#include <sectio/scale/references.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <memory>

namespace sectio {

namespace {

using page::Column, page::ColumnKind, page::Number;

/// A line of the table.
struct Line {
    const Fretboard* board;
    std::size_t number; ///< of the fret on its board, from 0

    const PlannedFret& fret() const { return board->frets[number]; }
    /// What the fret before it sounds; the open string before the first.
    Interval before() const { return number == 0 ? Interval() : board->frets[number - 1].interval; }
};

std::vector<Line> lines_of(const FretPlan& plan) {
    std::vector<Line> lines;
    for (const Fretboard& board : plan.boards)
        for (std::size_t i = 0; i < board.frets.size(); ++i)
            lines.push_back({&board, i});
    return lines;
}

/// The half width as a fraction of a mm, rounded up: it only says which digits are borne.
std::optional<page::HalfWidth> half_width(const PlannedFret& fret, const Length& length) {
    const auto width = half_width_of(fret, length);
    if (!width)
        return std::nullopt;
    return page::HalfWidth(width->millimetres().rounded(6) + Rational(1, 1'000'000));
}

Number millimetres(const StopDistance& distance, const std::optional<page::HalfWidth>& width) {
    return Number(distance.millimetres()).borne_by(width).shown_with(bench_digits);
}

const Stop* stop_on(const PlannedFret& fret, std::size_t string) {
    const auto found = std::find_if(fret.stops.begin(), fret.stops.end(),
                                    [string](const Stop& s) { return s.string == string; });
    return found == fret.stops.end() ? nullptr : &*found;
}

void add_fret_columns(page::Table& table, const FretPlan& plan, const std::vector<Line>& lines) {
    table.add(lines, Column{"Fret", ColumnKind::key}.keyed("fret"),
              [](const Line& l) { return page::count(l.number + 1); });
    table.add(lines, Column{"Degree", ColumnKind::words}.keyed("name"),
              [&](const Line& l) { return page::Cell(names_of(plan, l.fret())); });
    table.add(lines, Column{}.keyed("degree").hidden(),
              [](const Line& l) { return page::count(l.fret().stops.front().degree); });
    table.add(lines, Column{"", ColumnKind::words}.keyed("interval").hidden(),
              [](const Line& l) { return page::Cell(l.fret().interval); });
    table.add(lines, Column{"Cents", ColumnKind::figure}.keyed("cents"), [](const Line& l) {
        const auto& width = l.fret().uncertainty;
        return page::cents(l.fret().interval)
            .borne_by(width ? std::optional(page::HalfWidth(*width)) : std::nullopt);
    });
}

/// The places along a string of each line's length, under keys that begin with `key`.
template <typename LengthOf>
void add_places(page::Table& table, const std::vector<Line>& lines, const std::string& key,
                const std::string& group, LengthOf length) {
    const auto add = [&](const char* heading, const char* name, bool first, auto place) {
        table.add(
            lines, Column{heading, ColumnKind::figure, group, 0, first}.keyed(key + name),
            [&](const Line& l) { return millimetres(place(l), half_width(l.fret(), length(l))); });
    };
    add("from nut", "from_nut_mm", true,
        [&](const Line& l) { return place_of(l.fret(), length(l)); });
    add("to bridge", "to_bridge_mm", false,
        [&](const Line& l) { return StopDistance::to_bridge(length(l), l.fret().interval); });
    add("from the last", "spacing_mm", false, [&](const Line& l) {
        return StopDistance::between(length(l), l.before(), l.fret().interval);
    });
}

void add_place_columns(page::Table& table, const FretSheet& sheet, const std::vector<Line>& lines) {
    const auto group = [&](const PlannedString& string) {
        return sheet.slanted() ? "mm along " + string.name : "mm";
    };
    const auto& strings = sheet.plan.boards.front().strings;
    add_places(table, lines, "", group(sheet.plan.strings[strings.front()]),
               [](const Line& l) -> const Length& { return l.board->length; });
    if (sheet.slanted())
        add_places(table, lines, "last_string_", group(sheet.plan.strings[strings.back()]),
                   [&](const Line&) -> const Length& { return sheet.neck->last; });
    if (std::none_of(lines.begin(), lines.end(),
                     [](const Line& l) { return l.fret().uncertainty.has_value(); }))
        return;
    table.add(lines, Column{"±", ColumnKind::figure, "mm"}.keyed("uncertainty_mm"),
              [](const Line& l) -> page::Cell {
                  const auto width = half_width(l.fret(), l.board->length);
                  return width ? page::Cell(page::margin(*width)) : page::Cell();
              });
}

/// The places once more, in inches.
template <typename LengthOf>
void add_inches(page::Table& table, const std::vector<Line>& lines, const std::string& key,
                const std::string& heading, LengthOf length_of) {
    constexpr int digits = 3;
    const Rational of_one_mm(5, 127);
    table.add(lines, Column{heading, ColumnKind::figure, "inches"}.keyed(key), [&](const Line& l) {
        const Length& length = length_of(l);
        const auto mm = half_width(l.fret(), length);
        const auto width =
            mm ? std::optional(page::HalfWidth(std::get<Rational>(*mm) * of_one_mm)) : std::nullopt;
        return millimetres(place_of(l.fret(), length * of_one_mm), width).shown_with(digits);
    });
}

/// What each string gets of a fret: its degree, and by how much the fret misses it.
void add_string_columns(page::Table& table, const FretPlan& plan, const std::vector<Line>& lines) {
    if (plan.strings.size() < 2)
        return;
    for (std::size_t i = 0; i < plan.strings.size(); ++i) {
        if (!plan.strings[i].fretted)
            continue;
        const std::string key = fmt::format("strings[{}].", i);
        table.add(
            lines,
            Column{"degree", ColumnKind::words, plan.strings[i].name, i + 1}.keyed(key + "degree"),
            [&, i](const Line& l) -> page::Cell {
                const Stop* stop = stop_on(l.fret(), i);
                return stop ? page::Cell(name_of(plan, *stop)) : page::Cell();
            });
        table.add(lines,
                  Column{"error", ColumnKind::figure, plan.strings[i].name, i + 1}.keyed(
                      key + "error_cents"),
                  [i](const Line& l) -> page::Cell {
                      const Stop* stop = stop_on(l.fret(), i);
                      return stop ? page::Cell(page::cents(stop->error).with_sign()) : page::Cell();
                  });
    }
}

page::Table fret_table(const FretSheet& sheet) {
    const FretPlan& plan = sheet.plan;
    const std::vector<Line> lines = lines_of(plan);
    page::Table table;
    table.key = "frets";
    table.heading = "Frets";
    add_fret_columns(table, plan, lines);
    if (plan.boards.size() > 1)
        table.add(lines, Column{"string", ColumnKind::figure, "mm"}.keyed("length_mm"),
                  [](const Line& l) {
                      return page::number(l.board->length.millimetres()).shown_with(bench_digits);
                  });
    add_place_columns(table, sheet, lines);
    if (sheet.inches)
        add_inches(table, lines, "from_nut_in", "from nut",
                   [](const Line& l) -> const Length& { return l.board->length; });
    if (sheet.inches && sheet.slanted())
        add_inches(table, lines, "last_string_from_nut_in", "last string",
                   [&](const Line&) -> const Length& { return sheet.neck->last; });
    add_string_columns(table, plan, lines);
    return table;
}

void add_neck(page::Facts& facts, const NeckShape& neck) {
    facts.facts.push_back({"Spread",
                           neck.nut_spread.text() + " at the nut, " + neck.bridge_spread.text()
                               + " at the bridge, between the outer strings",
                           ""});
    facts.facts.push_back({"", page::number(neck.nut_spread.millimetres()), "nut_spread_mm"});
    facts.facts.push_back({"", page::number(neck.bridge_spread.millimetres()), "bridge_spread_mm"});
    if (!neck.slanted())
        return;
    facts.facts.push_back({"Last string", neck.last.text(), ""});
    facts.facts.push_back(
        {"Square to the centre line",
         neck.perpendicular == 0 ? "nut" : fmt::format("fret {}", neck.perpendicular), ""});
    facts.facts.push_back({"", page::count(neck.perpendicular), "perpendicular_fret"});
}

/// "3 mm", or of each string "3 mm (a), 5 mm (b)"; nothing where there is none.
std::string compensation_of(const FretPlan& plan) {
    std::vector<const PlannedString*> fretted;
    for (const Fretboard& board : plan.boards)
        for (const std::size_t i : board.strings)
            fretted.push_back(&plan.strings[i]);
    const Length& first = fretted.front()->compensation;
    if (std::all_of(fretted.begin(), fretted.end(),
                    [&](const PlannedString* s) { return s->compensation == first; }))
        return first == Length() ? "" : first.text();
    std::string words;
    for (const PlannedString* s : fretted)
        words +=
            fmt::format("{}{} ({})", words.empty() ? "" : ", ", s->compensation.text(), s->name);
    return words;
}

page::Facts facts_of(const FretSheet& sheet, const Catalogue& catalogue) {
    const Scale& scale = sheet.plan.scale;
    page::Facts facts;
    facts.facts.push_back({"Scale", scale.name, "scale"});
    if (!scale.source.empty())
        facts.facts.push_back({"Source", with_references(scale.source, catalogue), "source"});
    if (!sheet.tonic.empty())
        facts.facts.push_back({"Tonic", sheet.tonic, "tonic"});
    for (const Fretboard& board : sheet.plan.boards)
        facts.facts.push_back({"Length", board.length.text() + ", nut to bridge", ""});
    if (sheet.neck)
        add_neck(facts, *sheet.neck);
    if (const std::string words = compensation_of(sheet.plan); !words.empty())
        facts.facts.push_back(
            {"Compensation", words + ": the saddle stands that much farther", ""});
    return facts;
}

constexpr const char* slanted_frets =
    "Frets slant: mark each on both outer strings, measured along the string, and lay it straight "
    "between the marks. Nut and bridge slant alike; the strings divide both into equal parts, and "
    "so each fret stops all of them at the same interval. The chart of finger places shows the "
    "strings side by side and of one length.";

page::Paragraphs notes_of(const FretSheet& sheet) {
    page::Paragraphs notes;
    notes.paragraphs.push_back({page::Role::caution, template_caution});
    notes.paragraphs.push_back(
        {page::Role::note,
         "Places are those of the string at rest: pressing it down sharpens it, which the saddle's "
         "compensation makes good for. Try one string before all slots are cut."});
    if (sheet.slanted())
        notes.paragraphs.push_back({page::Role::note, slanted_frets});
    for (const std::string& remark : sheet.plan.scale.remarks)
        notes.paragraphs.push_back({page::Role::remark, remark});
    return notes;
}

} // namespace

page::Page fret_page(const FretSheet& sheet, const Catalogue& catalogue) {
    check(sheet.plan);
    page::Page page;
    page.title = "Frets: " + sheet.plan.scale.name;
    page.kind = "frets";
    page.date = sheet.date;
    page.blocks.push_back(facts_of(sheet, catalogue));
    page.blocks.push_back(fret_table(sheet));
    if (sheet.plan.strings.size() > 1)
        page.blocks.push_back(string_table(sheet));
    page.blocks.push_back(notes_of(sheet));
    page.blocks.push_back(finger_chart(sheet.plan, sheet.up_to));
    for (const Fretboard& board : sheet.plan.boards)
        for (page::Drawing& drawing : template_drawings(sheet.plan, board, sheet.neck))
            page.blocks.push_back(std::move(drawing));
    return page;
}

} // namespace sectio
