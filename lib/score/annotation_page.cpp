#include <sectio/base/argument.hpp>
#include <sectio/score/annotation_page.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <memory>

namespace sectio::score {

namespace {

using page::Column;
using page::ColumnKind;

page::Cell words(std::string_view text) {
    return std::string(text);
}

/// How the score was read; for programs with the evidence.
std::vector<page::Block> reading_blocks(const Reading& reading) {
    const Evidence& found = reading.evidence;
    const page::Facts how{"reading",
                          "",
                          {{"", words(word(reading.source)), "used"},
                           {"", reading.reason, "reason"},
                           {"", words(word(reading.table)), "signs"},
                           {"", words(word(reading.signature)), "signature"},
                           {"", page::YesNo{reading.grace_signs_lost}, "grace_signs_lost"}}};
    const page::Facts evidence{"reading.evidence",
                               "",
                               {{"", page::count(found.sign_without_alter), "sign_without_alter"},
                                {"", page::count(found.alter_without_sign), "alter_without_sign"},
                                {"", page::count(found.sign_and_alter), "sign_and_alter"},
                                {"", page::count(found.contradictions), "contradictions"},
                                {"", page::count(found.comma_signs), "comma_signs"},
                                {"", page::count(found.comma_signatures), "comma_signatures"},
                                {"", page::YesNo{found.names_a_makam}, "names_a_makam"}}};
    return {how, evidence};
}

/// What people read first.
page::Facts head(const Annotation& annotation) {
    const Reading& reading = annotation.reading;
    page::Facts facts{"", "", {{"Tuning", annotation.tuning, "tuning"}}};
    facts.facts.push_back(
        {"Read by", fmt::format("{}: {}", word(reading.source), reading.reason), ""});
    if (reading.source == Source::sign)
        facts.facts.push_back({"Signs", words(word(reading.table)), ""});
    return facts;
}

page::Facts counts(const Annotation& annotation) {
    const auto some = [](const std::string& label, std::size_t count) {
        return count > 0 ? label : "";
    };
    return {"",
            "",
            {{"Notes", page::count(annotation.notes), "notes"},
             {"Annotated", page::count(annotation.annotated), "annotated"},
             {some("Skipped", annotation.skipped), page::count(annotation.skipped), "skipped"},
             {some("Because", annotation.skipped), counted(annotation.skipped_because),
              "skipped_because"},
             {"", page::count(annotation.rests), "rests"},
             {"", page::count(annotation.texts), "texts"},
             {some("Signs unknown to the standard", annotation.unknown_signs.size()),
              counted(annotation.unknown_signs), "unknown_signs"}}};
}

/// The parts of a row for people, nothing where the score has but one.
page::Cell parts_of(const TableRow& row, const Annotation& annotation) {
    if (annotation.parts.size() < 2)
        return {};
    if (row.parts.size() == annotation.parts.size())
        return "all";
    return fmt::format("{}", fmt::join(row.parts, ", "));
}

page::List part_list(const TableRow& row) {
    page::List list;
    for (const std::string& part : row.parts)
        list.items.push_back(part);
    return list;
}

page::Table table_of(const Annotation& annotation, const AnnotationPageOptions& options) {
    const std::vector<TableRow>& rows = annotation.table;
    std::optional<page::HalfWidth> half_width;
    if (options.half_width)
        half_width = *options.half_width;
    page::Table table{"table", "", {}, {}};
    table.add(rows, Column{"", ColumnKind::note}.keyed("written").hidden(),
              [](const TableRow& row) { return row.written; });
    table.add(rows, Column{"Note", ColumnKind::note, "", 0, true},
              [](const TableRow& row) { return row.shown; });
    table.add(rows, Column{"", ColumnKind::figure}.keyed("count").hidden(),
              [](const TableRow& row) { return page::count(row.count); });
    table.add(rows, Column{"", ColumnKind::note}.keyed("from").hidden(),
              [](const TableRow& row) { return row.base; });
    table.add(rows, Column{"Cents", ColumnKind::figure, "", 0, true}.keyed("deviation_cents"),
              [&](const TableRow& row) {
                  return page::cents(row.deviation).with_sign().borne_by(half_width);
              });
    table.add(rows, Column{"from", ColumnKind::note}, [](const TableRow& row) {
        return row.shown_base == row.shown ? std::string() : row.shown_base;
    });
    table.add(rows, Column{"Part", ColumnKind::words},
              [&](const TableRow& row) { return parts_of(row, annotation); });
    table.add(rows, Column{"", ColumnKind::words}.keyed("parts").hidden(), part_list);
    table.add(rows, Column{"Times"}, [](const TableRow& row) { return page::count(row.count); });
    return table;
}

page::Paragraphs remarks(const Annotation& annotation) {
    page::Paragraphs notes;
    const auto say = [&](std::string text) {
        notes.paragraphs.push_back({page::Role::note, std::move(text)});
    };
    say("Deviations are cents from 12 equal steps: the note minus the key that it counts from.");
    if (!annotation.unmatched.empty())
        say(fmt::format("{} notes are marked ? in the score: the tuning lacks them, or their "
                        "pitch is not in the score. {}",
                        annotation.unmatched.size(), annotation.cure));
    return notes;
}

} // namespace

std::string_view word(Source source) {
    return source == Source::sign ? "sign" : "alter";
}
std::string_view word(SignTable table) {
    return table == SignTable::turkish ? "turkish" : "general";
}
std::string_view word(Signature signature) {
    return signature == Signature::practised ? "practised" : "written";
}

page::Map counted(const std::map<std::string, std::size_t>& counts) {
    page::Map map;
    for (const auto& [name, count] : counts)
        map.items.emplace_back(name, page::count(count));
    return map;
}

namespace {

void check_names(const std::vector<Unmatched>& notes, const UnmatchedNames& names) {
    check_argument(std::all_of(notes.begin(), notes.end(),
                               [&](const Unmatched& note) {
                                   return note.part < names.parts.size()
                                          && note.measure < names.measures.size()
                                          && note.pitch < names.pitches.size()
                                          && note.reason < names.reasons.size();
                               }),
                   "a note that is unmatched", "one of a part, a measure, a pitch and a reason");
}

} // namespace

page::Table unmatched_notes(const std::vector<Unmatched>& notes, const UnmatchedNames& names) {
    check_names(notes, names);
    const auto kept = std::make_shared<const std::vector<Unmatched>>(notes);
    page::Table table{"unmatched", "", {}, {}};
    const auto add = [&](const char* key, const std::vector<std::string>& texts,
                         std::uint32_t Unmatched::*place) {
        table.add_later(notes.size(), Column{"", ColumnKind::words, "", 0, false, key, "", false},
                        [kept, texts, place](std::size_t i) { return texts[(*kept)[i].*place]; });
    };
    add("part", names.parts, &Unmatched::part);
    add("measure", names.measures, &Unmatched::measure);
    add("pitch", names.pitches, &Unmatched::pitch);
    add("reason", names.reasons, &Unmatched::reason);
    return table;
}

page::Table unmatched_kinds(const std::vector<Unmatched>& notes, const UnmatchedNames& names) {
    check_names(notes, names);
    struct Kind {
        const Unmatched* first;
        std::size_t count = 0;
    };
    std::map<std::pair<std::string, std::string>, Kind> kinds;
    for (const Unmatched& note : notes)
        ++kinds.try_emplace({names.reasons[note.reason], names.pitches[note.pitch]}, Kind{&note})
              .first->second.count;
    page::Table table{"", notes.empty() ? "" : "Unmatched", {}, {}};
    table.add(kinds, Column{"Note", ColumnKind::note},
              [](const auto& kind) { return kind.first.second; });
    table.add(kinds, Column{"Times"},
              [](const auto& kind) { return page::count(kind.second.count); });
    table.add(kinds, Column{"Why", ColumnKind::words},
              [](const auto& kind) { return kind.first.first; });
    table.add(kinds, Column{"First", ColumnKind::words}, [&](const auto& kind) {
        const Unmatched& first = *kind.second.first;
        return fmt::format("{}, measure {}", names.parts[first.part],
                           names.measures[first.measure]);
    });
    return table;
}

page::Page annotation_page(const Annotation& annotation, const AnnotationPageOptions& options) {
    page::Page page;
    page.title = annotation.title.empty() ? options.file : annotation.title;
    page.kind = "annotation";
    page.date = options.date;
    constexpr double read_standing = 16;
    page.largest_type = read_standing;
    page.blocks = {head(annotation)};
    for (page::Block& block : reading_blocks(annotation.reading))
        page.blocks.push_back(std::move(block));
    page.blocks.push_back(counts(annotation));
    page.blocks.push_back(table_of(annotation, options));
    page.blocks.push_back(remarks(annotation));
    page.blocks.push_back(unmatched_notes(annotation.unmatched, annotation.names));
    if (!annotation.unmatched.empty())
        page.blocks.push_back(unmatched_kinds(annotation.unmatched, annotation.names));
    return page;
}

} // namespace sectio::score
