#include <sectio/base/argument.hpp>
#include <sectio/identify/candidate_chart.hpp>
#include <sectio/identify/identify_page.hpp>
#include <sectio/identify/namesakes.hpp>
#include <sectio/identify/progression.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <functional>

namespace sectio {

namespace {

/// Candidates that people are shown; programs get them all.
constexpr std::size_t most_rows = 20;

std::string headline(const Identification& answer) {
    if (answer.verdict == Verdict::none)
        return "none: no scale of the catalogue accounts for these pitches";
    std::string names;
    std::size_t named = 0;
    for (const Candidate& c : answer.candidates)
        if (c.named && ++named <= most_rows)
            names += (names.empty() ? "" : "; ") + all_names_of(c);
    return fmt::format("{}: {}", text(answer.verdict), names);
}

page::Cell namesakes(const Candidate& candidate, bool ids) {
    page::List list;
    for (const LibraryScale* scale : candidate.namesakes)
        list.items.push_back(ids ? scale->entry.id : scale->entry.name);
    return list;
}

page::Cell texts(const std::vector<std::string>& items) {
    page::List list;
    for (const std::string& item : items)
        list.items.push_back(item);
    return list;
}

page::Cell progression(const Candidate& candidate) {
    return texts(candidate.progression);
}

using page::Column;
using page::ColumnKind;

/// "8 of 9", and both numbers for programs.
void add_matched(page::Table& table, const std::vector<Candidate>& candidates) {
    table.add(candidates, Column{"Matched", ColumnKind::words},
              [](const Candidate& c) { return fmt::format("{} of {}", c.matched, c.of); });
    table.add(candidates, Column{}.keyed("matched").hidden(),
              [](const Candidate& c) { return page::count(c.matched); });
    table.add(candidates, Column{}.keyed("of").hidden(),
              [](const Candidate& c) { return page::count(c.of); });
}

void add_errors(page::Table& table, const std::vector<Candidate>& candidates) {
    const auto add = [&](const char* head, const char* key, double Candidate::*value) {
        table.add(candidates, Column{head, ColumnKind::figure, "Cents"}.keyed(key),
                  [value](const Candidate& c) { return page::computed(c.*value); });
    };
    add("RMS", "rms_cents", &Candidate::rms_cents);
    add("Worst", "worst_cents", &Candidate::worst_cents);
    add("Offset", "offset_cents", &Candidate::offset_cents);
}

/// What decides stands first; the id last, since every command takes the name too.
page::Table candidate_table(const Identification& answer) {
    const auto& candidates = answer.candidates;
    page::Table table{"candidates", "", {}, {}};
    table.add(candidates, Column{"", ColumnKind::words},
              [](const Candidate& c) { return page::Cell(c.named ? "*" : ""); });
    table.add(candidates, Column{"Scale", ColumnKind::words}.keyed("name"),
              [](const Candidate& c) { return c.scale->entry.name; });
    if (!candidates.empty() && !candidates.front().tonic.empty())
        table.add(candidates, Column{"Tonic", ColumnKind::words}.keyed("tonic"),
                  [](const Candidate& c) { return c.tonic; });
    table.add(candidates, Column{"Probability"},
              [](const Candidate& c) { return percent(c.probability); });
    add_matched(table, candidates);
    add_errors(table, candidates);
    table.add(candidates,
              Column{"is degree", ColumnKind::figure, "First pitch"}.keyed("start_degree"),
              [](const Candidate& c) { return page::count(c.start_degree); });
    table.add(candidates, Column{"Id", ColumnKind::words}.keyed("id"),
              [](const Candidate& c) { return c.scale->entry.id; });
    table.add(candidates, Column{}.keyed("probability").hidden(),
              [](const Candidate& c) { return page::computed(c.probability); });
    table.add(candidates, Column{}.keyed("named").hidden(),
              [](const Candidate& c) { return page::YesNo{c.named}; });
    table.add(candidates, Column{}.keyed("also").hidden(),
              [](const Candidate& c) { return namesakes(c, true); });
    table.add(candidates, Column{}.keyed("equal_rotations").hidden(),
              [](const Candidate& c) { return page::count(c.equal_rotations); });
    table.add(candidates, Column{}.keyed("course").hidden(), progression);
    return table;
}

/// What is left of the probability, for people as rows of words.
page::Facts rest(const Identification& answer) {
    page::Facts facts;
    facts.facts.push_back({"None of the catalogue", percent(answer.none_probability), ""});
    facts.facts.push_back({"", page::computed(answer.none_probability), "none_probability"});
    if (answer.others_probability > 0)
        facts.facts.push_back({"All others", percent(answer.others_probability), ""});
    facts.facts.push_back({"", page::computed(answer.others_probability), "others_probability"});
    facts.facts.push_back({"", page::YesNo{answer.by_progression}, "by_course"});
    return facts;
}

page::Paragraphs namesake_words(const Identification& answer) {
    page::Paragraphs words{"", "The same pitches have", {}};
    for (const Candidate& c : answer.candidates)
        if (c.named && !c.namesakes.empty()) {
            std::string names = c.scale->entry.name;
            for (const LibraryScale* other : c.namesakes)
                names += ", " + other->entry.name;
            words.paragraphs.push_back({page::Role::plain, names});
        }
    return words;
}

/// A paragraph for each of `items`, `text(item)`.
template <typename Items, typename Text>
page::Paragraphs words_of(std::string heading, const Items& items, Text text) {
    page::Paragraphs words{"", std::move(heading), {}};
    for (const auto& item : items)
        words.paragraphs.push_back({page::Role::plain, text(item)});
    return words;
}

page::Table why_table(const Identification& answer) {
    page::Table table{"why", "", {}, {}};
    const auto& all = answer.why;
    table.add(all, Column{}.keyed("by").hidden(),
              [](const Reason& r) { return std::string(text(r.by)); });
    table.add(all, Column{}.keyed("log_ratio").hidden(),
              [](const Reason& r) { return page::computed(r.log); });
    table.add(all, Column{}.keyed("text").hidden(), [](const Reason& r) { return r.text; });
    table.add(all, Column{}.keyed("notes").hidden(),
              [](const Reason& r) { return texts(r.notes); });
    table.add(all, Column{}.keyed("bars").hidden(), [](const Reason& r) { return texts(r.bars); });
    return table;
}

page::Paragraphs why_words(const Identification& answer) {
    const auto name = [&](std::size_t i) { return answer.candidates.at(i).scale->entry.name; };
    return words_of("Why " + name(0) + " and not " + name(1), answer.why,
                    [](const Reason& reason) { return reason.text + in_brackets(reason.log); });
}

/// What the numbers in brackets say.
page::Paragraphs bracket_words() {
    return {"",
            "",
            {{page::Role::note,
              "In brackets: how much this speaks for the scale, as a natural logarithm. +2.3 makes "
              "it ten times as probable, −2.3 a tenth."}}};
}

page::Table distinction_table(const Identification& answer) {
    page::Table table{"distinguish", "What would tell them apart", {}, {}};
    const auto& all = answer.distinguish;
    table.add(all, Column{}.keyed("ids").hidden(), [](const Distinction& d) {
        page::List ids;
        for (const std::string& id : d.ids)
            ids.items.push_back(id);
        return page::Cell(ids);
    });
    table.add(all, Column{}.keyed("by").hidden(),
              [](const Distinction& d) { return std::string(text(d.by)); });
    table.add(all, Column{}.keyed("text").hidden(), [](const Distinction& d) { return d.text; });
    return table;
}

/// Of how many degrees of a scale that repeats within its period each may be the tonic.
page::Paragraphs rotation_words(const Identification& answer) {
    page::Paragraphs words{"", "The same from several degrees", {}};
    for (const Candidate& c : answer.candidates)
        if (c.named && c.equal_rotations > 1)
            words.paragraphs.push_back(
                {page::Role::plain,
                 fmt::format("{} has the same pitches from {} of its {} degrees",
                             c.scale->entry.name, c.equal_rotations, c.scale->degrees.size())});
    return words;
}

/// Where nothing parts them: why the nearest scale is not named all the same.
page::Paragraphs no_difference_words(const Identification& answer) {
    return {
        "",
        "Nearest is " + answer.candidates.front().scale->entry.name,
        {{page::Role::plain, "every pitch lies on a degree and every degree has one, but so few "
                             "pitches, or so wide a spread, fit some scale by chance"}}};
}

const char* difference_text(const DegreeDifference& difference) {
    if (!difference.pitch)
        return "nothing lies on it";
    return difference.on_degree ? "lies beside it" : "lies on no degree";
}

/// What parts the nearest scale from the pitches.
page::Table difference_table(const Identification& answer) {
    const auto& all = answer.differences;
    const std::string nearest =
        answer.candidates.empty() ? "" : answer.candidates.front().scale->entry.name;
    page::Table table{"differences", "Nearest is " + nearest + "; what differs", {}, {}};
    table.add(all, Column{"Degree"}.keyed("degree"),
              [](const DegreeDifference& d) { return page::count(d.degree); });
    table.add(all, Column{"Pitch, cents"}.keyed("pitch_cents"), [](const DegreeDifference& d) {
        return d.pitch ? page::Cell(page::cents(*d.pitch)) : page::Cell();
    });
    table.add(all, Column{"From the degree"}.keyed("away_cents"), [](const DegreeDifference& d) {
        return d.pitch ? page::Cell(page::computed(d.away_cents).with_sign()) : page::Cell();
    });
    table.add(all, Column{"", ColumnKind::words},
              [](const DegreeDifference& d) { return page::Cell(difference_text(d)); });
    return table;
}

page::Cell readings(const IdentifiedPitch& pitch) {
    page::List list;
    for (const PitchReading& r : pitch.readings)
        list.items.push_back(page::Phrase{
            {page::Cell(r.expression), page::cents(r.error).with_sign(), percent(r.likelihood)}});
    return list;
}

page::Cell readings_for_programs(const IdentifiedPitch& pitch) {
    page::List list;
    for (const PitchReading& r : pitch.readings)
        list.items.push_back(page::Map{{{"expression", r.expression},
                                        {"error_cents", page::cents(r.error)},
                                        {"likelihood", page::computed(r.likelihood)}}});
    return list;
}

page::Table pitch_table(const Identification& answer) {
    page::Table table{"pitches", "The pitches, in cents above " + answer.counted_from, {}, {}};
    table.add(answer.pitches, Column{"Cents"}.keyed("cents"),
              [](const IdentifiedPitch& p) { return page::cents(p.interval); });
    table.add(answer.pitches,
              Column{"May stand for (with error and likelihood)", ColumnKind::words}, readings);
    table.add(answer.pitches, Column{}.keyed("readings").hidden(), readings_for_programs);
    return table;
}

} // namespace

page::Cell percent(double probability) {
    return page::computed(100 * probability).shown_with(1).in("%");
}

page::Page identify_page(const Identification& answer) {
    for (const Candidate& candidate : answer.candidates)
        check_argument(
            candidate.scale != nullptr
                && std::count(candidate.namesakes.begin(), candidate.namesakes.end(), nullptr) == 0,
            "a candidate", "a scale of a library");
    page::Page page{.title = headline(answer), .kind = "identification"};
    page.blocks.push_back(
        page::Facts{"", "", {{"", std::string(text(answer.verdict)), "verdict"}}});
    page.blocks.push_back(candidate_table(answer));
    page.blocks.push_back(rest(answer));
    if (auto chart = candidate_chart(answer))
        page.blocks.push_back(std::move(*chart));
    const auto add = [&](page::Paragraphs words) {
        if (!words.paragraphs.empty())
            page.blocks.push_back(std::move(words));
    };
    add(namesake_words(answer));
    add(rotation_words(answer));
    bool brackets = !answer.why.empty();
    for (const Candidate& c : answer.candidates)
        if (c.named && !c.progression.empty()) {
            add(words_of("The melody and " + c.scale->entry.name, c.progression, std::identity()));
            brackets = true;
        }
    page.blocks.push_back(why_table(answer));
    if (!answer.why.empty())
        add(why_words(answer));
    if (brackets)
        add(bracket_words());
    page.blocks.push_back(distinction_table(answer));
    add(words_of("What would tell them apart", answer.distinguish,
                 [](const Distinction& d) { return d.text; }));
    page.blocks.push_back(difference_table(answer));
    if (answer.verdict == Verdict::none && answer.differences.empty() && !answer.candidates.empty())
        add(no_difference_words(answer));
    page.blocks.push_back(pitch_table(answer));
    return page;
}

} // namespace sectio
