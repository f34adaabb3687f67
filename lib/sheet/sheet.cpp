#include <sectio/base/argument.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/page/cautions.hpp>
#include <sectio/page/numbers.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/references.hpp>
#include <sectio/sheet/compared.hpp>
#include <sectio/sheet/messages.hpp>
#include <sectio/sheet/parts.hpp>
#include <sectio/sheet/sheet.hpp>
#include <sectio/sheet/sounds.hpp>
#include <sectio/sheet/systems.hpp>

#include <algorithm>

namespace sectio {

namespace {

using page::Cell;

/// What people read of the tonic: "D4 −14.0 cents ≈ 291.30 Hz".
Cell pitch_fact(const Comparison& c) {
    if (c.degrees.empty())
        return hertz_text(c.tonic());
    const ComparedDegree& tonic = tonic_of(c);
    page::Phrase phrase{{page::Note{tonic.note}}};
    if (!tonic.deviation.is_unison())
        phrase.parts.push_back(page::cents(tonic.deviation).with_sign().in("cents"));
    phrase.parts.push_back(hertz_text(c.tonic()));
    if (!tonic.degree.note.empty())
        if (const NoteName written = parse_note_name(tonic.degree.note); written != tonic.note.name)
            phrase.parts.push_back("(written " + written.text(true) + ")");
    return phrase;
}

Cell period_fact(const Comparison& c) {
    if (!c.scale().period)
        return "none";
    return page::Phrase{{shortened(to_expression(*c.scale().period)) + ",",
                         page::cents(*c.scale().period).in("cents")}};
}

std::string division_list(const std::vector<EqualDivision>& divisions) {
    std::string list;
    for (std::size_t i = 0; i < divisions.size(); ++i)
        list += (i == 0                      ? ""
                 : i + 1 == divisions.size() ? " and "
                                             : ", ")
                + division_name(divisions[i]);
    return list + " equal steps";
}

/// "12 and 53 equal steps; Turkish 24; Zarlino".
std::string compared_with(const Comparison& c, const std::vector<ComparedSystem>& systems) {
    std::string all = c.divisions.empty() ? "" : division_list(c.divisions);
    for (const ComparedSystem& system : systems)
        all += (all.empty() ? "" : "; ") + system.scale().name;
    return all;
}

page::Facts facts_of(const Comparison& c, const std::vector<ComparedSystem>& systems) {
    page::Facts facts{"",
                      "",
                      {{"", c.scale().name, "name"},
                       {"", c.scale().source, "source"},
                       {"", c.tonic_written(), "tonic"},
                       {"", page::hertz(c.tonic()), "tonic_hz"},
                       {"", page::hertz(c.a4()), "reference_hz"},
                       {"", reference_text(c.a4()), "reference"},
                       {"Tonic", pitch_fact(c), ""},
                       {"Reference pitch", "A4 " + hertz_text(c.a4()), ""},
                       {"Period", period_fact(c), ""},
                       {"Degrees", page::count(c.degrees.size()), ""}}};
    if (c.scale().signs)
        facts.facts.push_back({"", std::string(text(*c.scale().signs)), "signs"});
    if (const std::string all = compared_with(c, systems); !all.empty())
        facts.facts.push_back({"Compared with", all, ""});
    return facts;
}

constexpr const char* step_note =
    "Step and error: the nearest equal step, counted from the tonic, and step minus degree: − "
    "where the step is too low. A degree exactly half way takes the lower step. ";

void add_notes(page::Paragraphs& words, const Comparison& c) {
    const auto add = [&](std::string text) {
        words.paragraphs.push_back({page::Role::note, std::move(text)});
    };
    add("Cents, 1200 to the octave, correctly rounded. Next: from this degree to the one above "
        "it.");
    add("Key: the nearest of 12 equal steps from A4 " + hertz_text(c.a4())
        + ". Deviation: degree minus key, + where the degree is higher.");
    const auto keys = [&](const EqualDivision& division) { return steps_are_keys(c, division); };
    const bool steps = !std::all_of(c.divisions.begin(), c.divisions.end(), keys);
    if (!c.divisions.empty())
        add(std::string(steps ? step_note : "")
            + "Largest and RMS error leave the tonic and the period out.");
    if (std::any_of(c.divisions.begin(), c.divisions.end(), keys))
        add("The 12 steps are the keys themselves: their error is the deviation with the "
            "opposite sign.");
    if (c.scale().measured())
        add("± is the uncertainty of a measured degree in cents, rounded up; figures that rest on "
            "it have no more digits.");
}

/// `table`: the table is there, whose columns want to be explained.
page::Paragraphs words_of(const Comparison& c, const std::vector<ComparedSystem>& systems,
                          const SheetOptions& options, bool table) {
    page::Paragraphs words;
    if (options.strings.value_or(c.scale().measured()))
        words.paragraphs.push_back({page::Role::caution, page::raising_a_string});
    for (const std::string& remark : c.scale().remarks)
        words.paragraphs.push_back({page::Role::remark, remark});
    if (table)
        add_notes(words, c);
    if (!c.scale().source.empty())
        words.paragraphs.push_back(
            {page::Role::source, with_references(c.scale().source, options.names())});
    for (page::Paragraph& note : system_notes(systems, table, options.names()))
        words.paragraphs.push_back(std::move(note));
    return words;
}

void add_table(page::Page& sheet, const Comparison& c, const std::vector<ComparedSystem>& systems,
               bool frequencies) {
    sheet.blocks.push_back(degree_table(c, systems, frequencies));
    if (!c.closing)
        sheet.blocks.push_back(page::Facts{"", "", {{"", Cell(), "period"}}});
    sheet.blocks.push_back(summary_table(c, systems));
}

/// JSON has the degrees and their errors whatever people see.
void add_table_for_json(page::Page& sheet, const Comparison& c,
                        const std::vector<ComparedSystem>& systems) {
    const std::size_t first = sheet.blocks.size();
    add_table(sheet, c, systems, false);
    for (std::size_t i = first; i < sheet.blocks.size(); ++i)
        if (auto* table = std::get_if<page::Table>(&sheet.blocks[i]))
            for (page::Column& column : table->columns)
                column = column.keyed(column.key, "").hidden();
}

/// On a page of its own, unless nothing but the facts stands before it.
void add_part(page::Page& sheet, const SheetPart& part, Blocks blocks) {
    const std::string title(part.title);
    if (sheet.blocks.size() > 1)
        sheet.blocks.push_back(page::NewPage{title});
    else
        sheet.blocks.push_back(page::Paragraphs{"", title, {}});
    sheet.blocks.insert(sheet.blocks.end(), blocks.begin(), blocks.end());
}

} // namespace

page::Page sheet_page(const Comparison& comparison, const SheetOptions& options) {
    if (comparison.divisions.size() + options.systems.size() > limits::compared_divisions)
        throw error(message::too_many_divisions, "", {"--against"}, limits::compared_divisions);
    for (const std::string& name : options.pages)
        if (!is_sheet_page(name))
            throw error(message::unknown_page, name, {}, sheet_page_names());
    for (const DivisionSummary& summary : comparison.summaries)
        check_argument(summary.worst < comparison.degrees.size(), "a comparison",
                       "what compare() made of a scale");
    const std::vector<ComparedSystem> systems = compared_systems(comparison, options.systems);
    page::Page sheet;
    sheet.title = comparison.scale().name;
    sheet.kind = "sheet";
    sheet.date = options.date;
    const auto asked = [&](const char* name) {
        return std::find(options.pages.begin(), options.pages.end(), name) != options.pages.end();
    };
    sheet.blocks = {facts_of(comparison, systems)};
    if (asked("ruler"))
        sheet.blocks.push_back(scale_ruler(comparison, systems));
    if (asked("table"))
        add_table(sheet, comparison, systems, options.frequencies);
    const bool first_page = asked("ruler") || asked("table");
    if (first_page)
        sheet.blocks.push_back(words_of(comparison, systems, options, true));
    for (const std::string& name : options.pages)
        if (const SheetPart* part = find_part(name))
            add_part(sheet, *part, part->make(comparison, options));
    if (!first_page)
        sheet.blocks.push_back(words_of(comparison, systems, options, false));
    if (!asked("table"))
        add_table_for_json(sheet, comparison, systems);
    sheet.sounds = sounds_of(comparison.tuned, options.drone);
    return sheet;
}

} // namespace sectio
