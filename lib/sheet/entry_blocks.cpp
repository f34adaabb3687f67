#include <sectio/scale/comparison.hpp>
#include <sectio/scale/interval_report.hpp>
#include <sectio/scale/lookup.hpp>
#include <sectio/scale/references.hpp>
#include <sectio/sheet/entry_blocks.hpp>
#include <sectio/sheet/practised.hpp>
#include <sectio/sheet/sheet.hpp>

#include <fmt/format.h>

namespace sectio {

namespace {

using page::Cell;
using page::Column;
using page::ColumnKind;

Cell words_or_nothing(const std::string& text) {
    return text.empty() ? Cell() : Cell(text);
}

page::List list_of(const std::vector<std::string>& words) {
    page::List list;
    for (const std::string& word : words)
        list.items.emplace_back(word);
    return list;
}

std::string tradition(const Entry& e) {
    return e.family().empty() ? e.tradition() : e.tradition() + ", " + e.family();
}

/// Where the progression rests and how it goes.
page::List progression(const Entry& e) {
    std::vector<std::string> parts;
    if (!e.tonic_name().empty())
        parts.push_back("tonic " + e.tonic_name());
    if (e.progression().dominant)
        parts.push_back(fmt::format("dominant degree {}", *e.progression().dominant));
    if (e.progression().second_dominant)
        parts.push_back(fmt::format("second dominant degree {}", *e.progression().second_dominant));
    if (e.progression().direction)
        parts.emplace_back(text(e.progression().direction));
    return list_of(parts);
}

/// For programs: what the source gives, and nothing where it gives nothing.
page::Facts entry_facts(const Entry& e, const std::string& key) {
    page::Facts facts{key,
                      "",
                      {{"", e.id, "id"},
                       {"", std::string(text(e.kind())), "kind"},
                       {"", e.name, "name"},
                       {"", list_of(e.also), "also"},
                       {"", e.source, "source"}}};
    const auto add = [&](const char* name, Cell cell) {
        if (!cell.empty())
            facts.facts.push_back({"", std::move(cell), name});
    };
    const auto number = [](const std::optional<int>& n) { return n ? page::count(*n) : Cell(); };
    page::List mobile;
    for (const Interval& interval : e.progression().mobile)
        mobile.items.emplace_back(interval);
    add("tradition", words_or_nothing(e.tradition()));
    add("family", words_or_nothing(e.family()));
    add("tonic_name", words_or_nothing(e.tonic_name()));
    add("dominant", number(e.progression().dominant));
    add("second_dominant", number(e.progression().second_dominant));
    add("direction", words_or_nothing(std::string(text(e.progression().direction))));
    add("mobile", mobile);
    add("form_of", words_or_nothing(e.form_of()));
    add("note", words_or_nothing(e.note));
    if (e.interval()) {
        add("interval", *e.interval());
        add("cents", page::cents(*e.interval()));
    }
    if (e.division())
        add("division", division_cell(*e.division()));
    if (e.scale())
        add("period", e.scale()->period ? Cell(*e.scale()->period) : Cell("none"));
    return facts;
}

Cell step_cell(const ComparedStep& step) {
    return page::Phrase{
        {"step", page::Count{step.step}, "error", page::cents(step.error).with_sign().in("cents")}};
}

/// For people, of an entry shown whole.
page::Facts shown_facts(const Entry& e, const Catalogue& catalogue) {
    page::Facts facts{"", "", {}};
    const auto add = [&](const char* label, Cell cell) {
        facts.facts.push_back({label, std::move(cell), ""});
    };
    add("id", e.id + ", " + std::string(text(e.kind())));
    add("also", list_of(e.also));
    add("tradition", tradition(e));
    add("course", progression(e));
    add("practised", practised_line(e, catalogue));
    if (e.interval()) {
        add("interval", *e.interval());
        add("size", page::cents(*e.interval()).shown_with(3).in("cents"));
        add("factors", factors_text(e.interval()->prime_factors()));
        add("of 12", step_cell(compared_step(EqualDivision(12), *e.interval())));
        add("of 53", step_cell(compared_step(EqualDivision(53), *e.interval())));
    }
    if (e.scale() && e.scale()->period && *e.scale()->period != Interval::octave())
        add("period", *e.scale()->period);
    add("note", e.note);
    add("source", with_references(e.source, catalogue));
    return facts;
}

/// Scales of the same pitches, for programs and for people.
std::vector<page::Block> relatives_blocks(const Entry& e, const Catalogue& catalogue,
                                          const std::string& key) {
    std::vector<Relative> rotations;
    page::List ids, same, rotated;
    for (const Relative& r : relatives(e, catalogue)) {
        const std::string name = fmt::format("{} ({})", r.entry->name, r.entry->id);
        if (r.shift == 0) {
            ids.items.emplace_back(r.entry->id);
            same.items.emplace_back(name);
        } else {
            rotations.push_back(r);
            rotated.items.emplace_back(fmt::format("{} from degree {}", name, r.shift + 1));
        }
    }
    page::Table table{key + ".rotations", "", {}, {}};
    table.add(rotations, Column{}.keyed("id", "").hidden(),
              [](const Relative& r) { return r.entry->id; });
    table.add(rotations, Column{}.keyed("degree", "").hidden(),
              [](const Relative& r) { return page::count(r.shift + 1); });
    return {page::Facts{key, "", {{"", ids, "same_pitches"}}}, table,
            page::Facts{"", "", {{"same pitches", same, ""}, {"rotations", rotated, ""}}}};
}

/// The degrees, above them the tonic C4, of which only distances are shown.
class EntryTable {
  public:
    EntryTable(const Entry& e, bool shown) : shown_(shown) {
        if (!e.scale())
            return;
        comparison_ =
            compare(*e.scale(), {"C4", std::nullopt, {EqualDivision(12), EqualDivision(53)}});
        for (const ComparedDegree& d : comparison_->degrees)
            degrees_.push_back(&d);
        if (shown && comparison_->closing)
            degrees_.push_back(closing_ = &*comparison_->closing);
    }

    page::Table make(const std::string& key) {
        table_.key = key;
        std::size_t index = 0;
        add(Column{"degree", ColumnKind::key}.keyed("index"), [&](const ComparedDegree& d) {
            return &d == closing_ ? Cell() : page::count(++index);
        });
        add(Column{"name", ColumnKind::words}.keyed("name"),
            [](const ComparedDegree& d) { return d.degree.name; });
        add(Column{"note", ColumnKind::words}.keyed("note"),
            [](const ComparedDegree& d) { return page::WrittenNote{d.degree.note}; });
        add(Column{"interval", ColumnKind::words}.keyed("interval"),
            [](const ComparedDegree& d) { return d.degree.written; });
        add(Column{"cents"}.keyed("cents"),
            [](const ComparedDegree& d) { return page::cents(d.degree.interval); });
        add(Column{"to the next"}.keyed("next_cents"),
            [](const ComparedDegree& d) { return d.next ? Cell(page::cents(*d.next)) : Cell(); });
        if (shown_ && comparison_)
            steps();
        if (closing_)
            table_.rows.back().people_only = true;
        return std::move(table_);
    }

  private:
    template <typename MakeCell>
    void add(const Column& column, MakeCell cell) {
        table_.add(degrees_, shown_ ? column : column.hidden(),
                   [&](const ComparedDegree* d) { return cell(*d); });
    }
    void steps() {
        for (std::size_t i = 0; i < comparison_->divisions.size(); ++i) {
            const std::string group = "of " + division_name(comparison_->divisions[i]);
            add(Column{"step", ColumnKind::figure, group, i + 1},
                [i](const ComparedDegree& d) { return page::Count{d.against[i].step}; });
            add(Column{"error", ColumnKind::figure, group, i + 1}, [i](const ComparedDegree& d) {
                return page::cents(d.against[i].error).with_sign();
            });
        }
    }

    std::optional<Comparison> comparison_;
    const ComparedDegree* closing_ = nullptr;
    bool shown_;
    std::vector<const ComparedDegree*> degrees_;
    page::Table table_;
};

} // namespace

std::vector<page::Block> entry_blocks(const Entry& entry, const Catalogue& catalogue,
                                      const std::string& key, bool whole) {
    std::vector<page::Block> blocks{entry_facts(entry, key)};
    std::vector<page::Block> kin;
    if (whole && entry.scale())
        kin = relatives_blocks(entry, catalogue, key);
    page::Facts shown = whole ? shown_facts(entry, catalogue) : page::Facts();
    if (!kin.empty()) {
        const auto& facts = std::get<page::Facts>(kin.back()).facts;
        shown.facts.insert(shown.facts.end(), facts.begin(), facts.end());
        kin.pop_back();
    }
    blocks.emplace_back(std::move(shown));
    blocks.emplace_back(EntryTable(entry, whole).make(key + ".degrees"));
    if (!entry.practised().empty())
        blocks.emplace_back(practised_table(entry, key + ".practised"));
    blocks.insert(blocks.end(), kin.begin(), kin.end());
    return blocks;
}

} // namespace sectio
