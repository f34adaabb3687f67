// sectio catalogue [WORDS…]: the reference.

#include "command.hpp"
#include "table.hpp"

#include <sectio/scale/comparison.hpp>
#include <sectio/scale/interval_report.hpp>
#include <sectio/scale/lookup.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace sectio::cli {

namespace {

using Rows = std::vector<std::vector<std::string>>;

/// Digits of cents in text for people; JSON has --digits.
constexpr int text_digits = 1;

struct Request {
    CommonOptions common;
    std::vector<std::string> words;
    std::string kind;
};

// JSON

Json degrees_json(const Entry& entry, int digits) {
    Json json = Json::array();
    if (!entry.scale)
        return json;
    const Comparison comparison = compare(*entry.scale, {"C4", std::nullopt, {}});
    for (std::size_t i = 0; i < comparison.degrees.size(); ++i) {
        const ComparedDegree& d = comparison.degrees[i];
        json.push_back({{"index", i + 1},
                        {"name", d.degree.name},
                        {"note", d.degree.note},
                        {"interval", d.degree.written},
                        {"cents", d.degree.interval.cents(digits)},
                        {"next_cents", d.next ? Json(d.next->cents(digits)) : Json()}});
    }
    return json;
}

void add_text(Json& json, const char* key, const std::string& text) {
    if (!text.empty())
        json[key] = text;
}

void add_relatives(Json& json, const Entry& entry) {
    Json same = Json::array(), rotations = Json::array();
    for (const Relative& r : relatives(entry, Catalogue::installed()))
        if (r.shift == 0)
            same.push_back(r.entry->id);
        else
            rotations.push_back({{"id", r.entry->id}, {"degree", r.shift + 1}});
    json["same_pitches"] = std::move(same);
    json["rotations"] = std::move(rotations);
}

Json entry_json(const Entry& entry, bool whole, int digits) {
    Json json = {{"id", entry.id},
                 {"kind", text(entry.kind)},
                 {"name", entry.name},
                 {"also", entry.also},
                 {"source", entry.source}};
    add_text(json, "tradition", entry.tradition);
    add_text(json, "family", entry.family);
    add_text(json, "tonic_name", entry.tonic_name);
    if (entry.dominant)
        json["dominant"] = *entry.dominant;
    if (entry.second_dominant)
        json["second_dominant"] = *entry.second_dominant;
    add_text(json, "direction", entry.direction);
    if (!entry.mobile.empty()) {
        json["mobile"] = Json::array();
        for (const Interval& interval : entry.mobile)
            json["mobile"].push_back(to_expression(interval));
    }
    add_text(json, "form_of", entry.form_of);
    add_text(json, "note", entry.note);
    if (entry.interval) {
        json["interval"] = to_expression(*entry.interval);
        json["cents"] = entry.interval->cents(digits);
    }
    if (entry.division)
        json["division"] = division_json(*entry.division);
    if (entry.scale)
        json["period"] = entry.scale->period ? to_expression(*entry.scale->period) : "none";
    json["degrees"] = degrees_json(entry, digits);
    if (whole && entry.scale)
        add_relatives(json, entry);
    return json;
}

// An entry shown whole

void line(std::string& text, std::string_view label, const std::string& value) {
    constexpr std::size_t label_width = 13, text_width = 78;
    if (value.empty())
        return;
    const std::string indent(label_width + 2, ' ');
    std::string block = wrapped(value, indent, text_width);
    block.replace(2, label.size(), label);
    text += block;
}

std::string listed(const std::vector<std::string>& names) {
    return fmt::format("{}", fmt::join(names, ", "));
}

/// "17  −1.4": a step and how far it lies from the degree.
std::pair<std::string, std::string> step_cells(const ComparedStep& step) {
    const std::string error = step.error.cents(text_digits);
    return {step.step.str(),
            error.starts_with('-') || step.error.is_unison() ? error : "+" + error};
}

std::string degrees_text(const Scale& scale) {
    const Comparison comparison =
        compare(scale, {"C4", std::nullopt, {EqualDivision(12), EqualDivision(53)}});
    Rows rows = {
        {"degree", "name", "note", "interval", "cents", "to the next", "of 12", "", "of 53", ""}};
    const auto add = [&](const std::string& number, const ComparedDegree& d) {
        const auto [step12, error12] = step_cells(d.against[0]);
        const auto [step53, error53] = step_cells(d.against[1]);
        rows.push_back({number, d.degree.name, d.degree.note, d.degree.written,
                        d.degree.interval.cents(text_digits),
                        d.next ? d.next->cents(text_digits) : "", step12, error12, step53,
                        error53});
    };
    for (std::size_t i = 0; i < comparison.degrees.size(); ++i)
        add(std::to_string(i + 1), comparison.degrees[i]);
    if (comparison.closing)
        add("", *comparison.closing);
    using enum Align;
    return aligned(rows, {right, left, left, left, right, right, right, right, right, right});
}

std::string relatives_text(const Entry& entry) {
    std::string text;
    std::vector<std::string> same, rotated;
    for (const Relative& r : relatives(entry, Catalogue::installed()))
        if (r.shift == 0)
            same.push_back(fmt::format("{} ({})", r.entry->name, r.entry->id));
        else
            rotated.push_back(
                fmt::format("{} ({}) from degree {}", r.entry->name, r.entry->id, r.shift + 1));
    line(text, "same pitches", listed(same));
    line(text, "rotations", listed(rotated));
    return text;
}

std::string interval_text(const Interval& interval) {
    std::string text;
    const Factors factors = interval.prime_factors();
    line(text, "interval", to_expression(interval));
    line(text, "size", interval.cents(default_digits) + " cents");
    line(text, "factors", factors_text(factors));
    for (const int steps : {12, 53}) {
        const EqualDivision division{Integer(steps)};
        const auto [step, error] = step_cells(compared_step(division, interval));
        line(text, fmt::format("of {}", steps), fmt::format("step {}, {} cents off", step, error));
    }
    return text;
}

std::string course_line(const Entry& entry) {
    std::vector<std::string> parts;
    if (!entry.tonic_name.empty())
        parts.push_back("tonic " + entry.tonic_name);
    if (entry.dominant)
        parts.push_back(fmt::format("dominant degree {}", *entry.dominant));
    if (entry.second_dominant)
        parts.push_back(fmt::format("second dominant degree {}", *entry.second_dominant));
    if (!entry.direction.empty())
        parts.push_back(entry.direction);
    return listed(parts);
}

std::string entry_text(const Entry& entry) {
    std::string text = fmt::format("{}\n", entry.name);
    line(text, "id", fmt::format("{}, {}", entry.id, sectio::text(entry.kind)));
    line(text, "also", listed(entry.also));
    line(text, "tradition",
         entry.family.empty() ? entry.tradition
                              : fmt::format("{}, {}", entry.tradition, entry.family));
    line(text, "course", course_line(entry));
    if (entry.interval)
        text += interval_text(*entry.interval);
    if (entry.scale && entry.scale->period && *entry.scale->period != Interval::octave())
        line(text, "period", to_expression(*entry.scale->period));
    line(text, "note", entry.note);
    line(text, "source", entry.source);
    if (entry.scale)
        text += relatives_text(entry) + "\n" + degrees_text(*entry.scale);
    return text;
}

// Lists

/// A ratio of very long terms goes into a column as powers of primes.
std::string short_text(const Interval& interval) {
    constexpr std::size_t column_width = 26;
    const std::string text = to_expression(interval);
    return text.size() > column_width ? factors_text(interval.prime_factors()) : text;
}

std::string intervals_text(const std::vector<const Entry*>& entries) {
    Rows rows = {{"interval", "cents", "name", "id"}};
    for (const Entry* e : entries)
        rows.push_back(
            {short_text(*e->interval), e->interval->cents(default_digits), e->name, e->id});
    return aligned(rows, {Align::left, Align::right});
}

std::string size_text(const Entry& entry) {
    return entry.division ? fmt::format("{} equal", division_text(*entry.division))
                          : fmt::format("{}", entry.scale->degrees.size());
}

std::string scales_text(const std::vector<const Entry*>& entries) {
    Rows rows = {{"degrees", "name", "id", "tradition"}};
    for (const Entry* e : entries)
        rows.push_back({size_text(*e), e->name, e->id, e->tradition});
    return aligned(rows, {Align::right});
}

constexpr std::pair<EntryKind, std::string_view> headings[]{{EntryKind::interval, "Intervals"},
                                                            {EntryKind::comma, "Commas"},
                                                            {EntryKind::scale, "Scales"},
                                                            {EntryKind::system, "Tuning systems"}};

std::vector<const Entry*> of_kind(const std::vector<const Entry*>& entries, EntryKind kind) {
    std::vector<const Entry*> found;
    std::copy_if(entries.begin(), entries.end(), std::back_inserter(found),
                 [&](const Entry* e) { return e->kind == kind; });
    if (has_size(kind))
        std::stable_sort(found.begin(), found.end(), [](const Entry* a, const Entry* b) {
            return *a->interval < *b->interval;
        });
    return found;
}

std::string list_text(const std::vector<const Entry*>& entries) {
    std::string text;
    for (const auto& [kind, heading] : headings) {
        const auto found = of_kind(entries, kind);
        if (found.empty())
            continue;
        text += fmt::format("{}{} ({})\n", text.empty() ? "" : "\n", heading, found.size());
        text += found.front()->interval ? intervals_text(found) : scales_text(found);
    }
    return text + "\n`sectio catalogue ID` shows an entry whole.\n";
}

/// What there is, where nobody asked for anything.
std::string overview_text(const std::vector<const Entry*>& entries) {
    std::string text = "The catalogue\n";
    for (const auto& [kind, heading] : headings) {
        const auto found = of_kind(entries, kind);
        text += fmt::format("\n{} ({})\n", heading, found.size());
        std::map<std::string, std::size_t> traditions;
        for (const Entry* e : found)
            ++traditions[e->tradition.empty() ? "of no one tradition" : e->tradition];
        Rows rows;
        for (const auto& [name, count] : traditions)
            rows.push_back({std::to_string(count), name});
        text += aligned(rows, {Align::right});
    }
    return text
           + "\n`sectio catalogue WORDS` finds entries by name, tradition, family or source; "
             "--kind interval,\ncomma, scale or system lists one kind; `sectio catalogue ID` shows "
             "an entry whole.\n";
}

std::string see_also(const std::vector<const Entry*>& entries) {
    std::vector<std::string> ids;
    for (const Entry* entry : entries)
        ids.push_back(entry->id);
    return ids.empty() ? std::string() : "\nSee also\n" + wrapped(listed(ids), "  ");
}

std::string answer_text(const Request& request, const Found& found) {
    if (request.words.empty() && request.kind.empty())
        return overview_text(found.matching);
    if (found.called.empty() && found.matching.size() > 1)
        return list_text(found.matching);
    if (found.called.empty())
        return entry_text(*found.matching.front());
    std::string text;
    for (const Entry* entry : found.called)
        text += (text.empty() ? "" : "\n") + entry_text(*entry);
    return text + see_also(found.matching);
}

void run(const Request& request) {
    std::optional<EntryKind> kind;
    if (!request.kind.empty())
        kind = parse_kind(request.kind, {"--kind"});
    const Found found = look_up(Catalogue::installed(), request.words, kind);
    if (!request.common.json)
        return print(answer_text(request, found));
    Json json = {{"entries", Json::array()}};
    const auto all = found.all();
    for (std::size_t i = 0; i < all.size(); ++i)
        json["entries"].push_back(
            entry_json(*all[i], i < found.called.size() || all.size() == 1, request.common.digits));
    print_json(json);
}

} // namespace

void add_catalogue(CLI::App& app) {
    const auto request = std::make_shared<Request>();
    CLI::App* command = app.add_subcommand(
        "catalogue", "the reference: intervals, commas, scales and tuning systems");
    command->add_option("WORDS", request->words,
                        "an id or a name, or words of the name, tradition, family or source");
    command->add_option("--kind", request->kind, "interval, comma, scale or system");
    add_common_options(*command, request->common);
    command->callback([request] { run(*request); });
}

} // namespace sectio::cli
