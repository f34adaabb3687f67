#include <sectio/scale/interval_report.hpp>
#include <sectio/sheet/catalogue_page.hpp>
#include <sectio/sheet/entry_blocks.hpp>
#include <sectio/sheet/sheet.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace sectio {

namespace {

using page::Cell;
using page::Column;
using page::ColumnKind;
using Entries = std::vector<const Entry*>;

constexpr std::pair<EntryKind, std::string_view> headings[]{{EntryKind::interval, "Intervals"},
                                                            {EntryKind::comma, "Commas"},
                                                            {EntryKind::scale, "Scales"},
                                                            {EntryKind::system, "Tuning systems"}};

/// Intervals and commas by size, the others in the order of the catalogue.
Entries of_kind(const Entries& entries, EntryKind kind) {
    Entries found;
    std::copy_if(entries.begin(), entries.end(), std::back_inserter(found),
                 [&](const Entry* e) { return e->kind() == kind; });
    if (has_size(kind))
        std::stable_sort(found.begin(), found.end(), [](const Entry* a, const Entry* b) {
            return *a->interval() < *b->interval();
        });
    return found;
}

/// A ratio of very long terms goes into a column as powers of primes.
std::string short_text(const Interval& interval) {
    constexpr std::size_t column_width = 26;
    const std::string text = to_expression(interval);
    return text.size() > column_width ? factors_text(interval.prime_factors()) : text;
}

Cell size_cell(const Entry& e) {
    if (e.division())
        return division_name(*e.division()) + " equal";
    return page::count(e.scale()->degrees.size());
}

page::Table list_of(const Entries& entries, std::string_view heading) {
    page::Table table{"", fmt::format("{} ({})", heading, entries.size()), {}, {}};
    const auto add = [&](const Column& column, auto cell) { table.add(entries, column, cell); };
    const bool sizes = entries.front()->interval() != nullptr;
    if (sizes) {
        add(Column{"interval", ColumnKind::words},
            [](const Entry* e) { return short_text(*e->interval()); });
        add(Column{"cents"},
            [](const Entry* e) { return page::cents(*e->interval()).shown_with(3); });
    } else {
        add(Column{"degrees"}, [](const Entry* e) { return size_cell(*e); });
    }
    add(Column{"name", ColumnKind::words}, [](const Entry* e) { return e->name; });
    add(Column{"id", ColumnKind::words}, [](const Entry* e) { return e->id; });
    if (!sizes)
        add(Column{"tradition", ColumnKind::words}, [](const Entry* e) { return e->tradition(); });
    return table;
}

/// The kind of the first entry leads where it is a system: what an instrument found.
std::vector<page::Block> lists(const Entries& entries) {
    std::vector<page::Block> blocks;
    const bool systems_first = !entries.empty() && entries.front()->kind() == EntryKind::system;
    for (const auto& [kind, heading] : headings)
        if (const Entries found = of_kind(entries, kind); !found.empty()) {
            const bool first = systems_first && kind == EntryKind::system;
            blocks.insert(first ? blocks.begin() : blocks.end(), list_of(found, heading));
        }
    return blocks;
}

page::Table traditions_of(const Entries& entries, std::string_view heading) {
    std::map<std::string, std::size_t> counts;
    for (const Entry* e : entries)
        ++counts[e->tradition().empty() ? "of no one tradition" : e->tradition()];
    page::Table table{"", fmt::format("{} ({})", heading, entries.size()), {}, {}};
    table.add(counts, Column{}, [](const auto& c) { return page::count(c.second); });
    table.add(counts, Column{"", ColumnKind::words}, [](const auto& c) { return c.first; });
    return table;
}

/// The entries one a record, for CSV.
page::Table records(const Entries& entries) {
    page::Table table;
    const auto add = [&](const char* field, auto cell) {
        table.add(entries, Column{}.keyed("", field).hidden(), cell);
    };
    add("id", [](const Entry* e) { return e->id; });
    add("kind", [](const Entry* e) { return std::string(text(e->kind())); });
    add("name", [](const Entry* e) { return e->name; });
    add("tradition", [](const Entry* e) { return e->tradition(); });
    add("family", [](const Entry* e) { return e->family(); });
    add("interval", [](const Entry* e) { return e->interval() ? Cell(*e->interval()) : Cell(); });
    add("cents",
        [](const Entry* e) { return e->interval() ? Cell(page::cents(*e->interval())) : Cell(); });
    add("degrees", [](const Entry* e) {
        return e->scale() ? page::count(e->scale()->degrees.size()) : Cell();
    });
    add("source", [](const Entry* e) { return e->source; });
    return table;
}

page::Paragraphs advice(std::string text) {
    return {"", "", {{page::Role::plain, std::move(text)}}};
}

page::Paragraphs see_also(const Entries& entries) {
    std::string ids;
    for (const Entry* e : entries)
        ids += (ids.empty() ? "" : ", ") + e->id;
    return {"", "See also", {{page::Role::plain, ids}}};
}

void append(std::vector<page::Block>& blocks, std::vector<page::Block> more) {
    blocks.insert(blocks.end(), std::make_move_iterator(more.begin()),
                  std::make_move_iterator(more.end()));
}

/// What people see of a list, after what programs get.
void list_for_people(page::Page& page, const Found& found, bool overview) {
    page.title = "The catalogue";
    if (!overview) {
        append(page.blocks, lists(found.matching));
        std::string more;
        for (const std::string& word : found.more)
            more += fmt::format("{}`sectio catalogue {}`", more.empty() ? "" : " and ", word);
        if (!more.empty())
            more = "The scales are those named as the most used; " + more + " finds all. ";
        page.blocks.emplace_back(advice(more + "`sectio catalogue ID` shows an entry whole."));
        return;
    }
    for (const auto& [kind, heading] : headings)
        page.blocks.emplace_back(traditions_of(of_kind(found.matching, kind), heading));
    page.blocks.emplace_back(advice(
        "`sectio catalogue WORDS` finds entries by name, tradition, family or source; --kind "
        "interval, comma, scale or system lists one kind; `sectio catalogue ID` shows an "
        "entry whole."));
}

} // namespace

page::Page catalogue_page(const Found& found, const Catalogue& catalogue, bool overview,
                          Readers readers) {
    page::Page page;
    page.kind = "catalogue";
    const Entries all = found.all();
    const std::size_t whole = overview                                  ? 0
                              : all.size() == 1 && found.called.empty() ? 1
                                                                        : found.called.size();
    const bool listed = readers == Readers::programs_too;
    if (whole != 1 && listed)
        page.blocks.emplace_back(records(all));
    for (std::size_t i = 0; i < (listed ? all.size() : whole); ++i) {
        if (i < whole && whole > 1)
            page.blocks.emplace_back(page::Paragraphs{"", all[i]->name, {}});
        append(page.blocks,
               entry_blocks(*all[i], catalogue, fmt::format("entries[{}]", i), i < whole));
    }
    if (whole == 0)
        list_for_people(page, found, overview);
    else
        page.title = all.front()->name;
    if (whole > 0 && found.matching.size() > (found.called.empty() ? 1U : 0U))
        page.blocks.emplace_back(see_also(found.matching));
    return page;
}

} // namespace sectio
