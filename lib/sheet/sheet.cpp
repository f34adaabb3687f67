#include <sectio/page/figures.hpp>
#include <sectio/scale/references.hpp>
#include <sectio/sheet/compared.hpp>
#include <sectio/sheet/parts.hpp>
#include <sectio/sheet/sheet.hpp>
#include <sectio/sheet/sounds.hpp>

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

page::Facts facts_of(const Comparison& c) {
    page::Facts facts{"",
                      "",
                      {{"", c.scale().name, "name"},
                       {"", c.scale().source, "source"},
                       {"", c.tonic_written(), "tonic"},
                       {"", page::hertz(c.tonic()), "tonic_hz"},
                       {"", page::hertz(c.a4()), "reference_hz"},
                       {"Tonic", pitch_fact(c), ""},
                       {"Reference pitch", "A4 " + hertz_text(c.a4()), ""},
                       {"Period", period_fact(c), ""},
                       {"Degrees", page::count(c.degrees.size()), ""}}};
    if (!c.divisions.empty())
        facts.facts.push_back({"Compared with", division_list(c.divisions), ""});
    return facts;
}

constexpr const char* string_caution =
    "Raising a string's pitch can break it: raise it little by little and protect your eyes.";

void add_notes(page::Paragraphs& words, const Comparison& c) {
    const auto add = [&](std::string text) {
        words.paragraphs.push_back({page::Role::note, std::move(text)});
    };
    add("Cents, 1200 to the octave, correctly rounded. Next: from this degree to the one above "
        "it.");
    add("Key: the nearest of 12 equal steps from A4 " + hertz_text(c.a4())
        + ". Deviation: degree minus key, + where the degree is higher.");
    if (!c.divisions.empty())
        add("Step and error: the nearest equal step, counted from the tonic, and step minus "
            "degree: "
            "− where the step is too low. A degree exactly half way takes the lower step. Largest "
            "and RMS error leave the tonic and the period out.");
    for (const EqualDivision& division : c.divisions)
        if (steps_are_keys(c, division))
            add("The 12 steps are the keys themselves: their error is the deviation with its sign "
                "turned.");
    if (c.scale().measured())
        add("± is the uncertainty of a measured degree in cents, rounded up; figures that rest on "
            "it are shown no finer.");
}

/// `table`: the table is there, whose columns want to be explained.
page::Paragraphs words_of(const Comparison& c, const SheetOptions& options, bool table) {
    page::Paragraphs words;
    if (options.strings.value_or(c.scale().measured()))
        words.paragraphs.push_back({page::Role::caution, string_caution});
    for (const std::string& remark : c.scale().remarks)
        words.paragraphs.push_back({page::Role::remark, remark});
    if (table)
        add_notes(words, c);
    if (!c.scale().source.empty())
        words.paragraphs.push_back({page::Role::source, with_references(c.scale().source)});
    return words;
}

void add_table(page::Page& sheet, const Comparison& c) {
    sheet.blocks.push_back(degree_table(c));
    if (!c.closing)
        sheet.blocks.push_back(page::Facts{"", "", {{"", Cell(), "period"}}});
    sheet.blocks.push_back(summary_table(c));
}

/// On a leaf of its own, unless nothing but the facts stands before it.
void add_part(page::Page& sheet, const SheetPart& part, Blocks blocks) {
    const std::string title(part.title);
    if (sheet.blocks.size() > 1)
        sheet.blocks.push_back(page::NewLeaf{title});
    else
        sheet.blocks.push_back(page::Paragraphs{"", title, {}});
    sheet.blocks.insert(sheet.blocks.end(), blocks.begin(), blocks.end());
}

} // namespace

page::Page sheet_page(const Comparison& comparison, const SheetOptions& options) {
    page::Page sheet;
    sheet.title = comparison.scale().name;
    sheet.kind = "sheet";
    sheet.date = options.date;
    const auto asked = [&](const char* name) {
        return std::find(options.pages.begin(), options.pages.end(), name) != options.pages.end();
    };
    sheet.blocks = {facts_of(comparison)};
    if (asked("ruler"))
        sheet.blocks.push_back(scale_ruler(comparison));
    if (asked("table"))
        add_table(sheet, comparison);
    const bool first_leaf = asked("ruler") || asked("table");
    if (first_leaf)
        sheet.blocks.push_back(words_of(comparison, options, true));
    for (const std::string& name : options.pages)
        if (const SheetPart* part = find_part(name))
            add_part(sheet, *part, part->make(comparison, options));
    if (!first_leaf)
        sheet.blocks.push_back(words_of(comparison, options, false));
    sheet.sounds = sounds_of(comparison.tuned, options.drone);
    return sheet;
}

} // namespace sectio
