#include <sectio/score/annotation_page.hpp>
#include <sectio/tuning/performance_page.hpp>

#include <fmt/format.h>

namespace sectio::tuning {

namespace {

using page::Column;
using page::ColumnKind;

std::string how(const PerformOptions& options) {
    if (options.by == PerformBy::tuning)
        return "tuning";
    return options.channels == ChannelUse::zone ? "bend, in a zone" : "bend";
}

page::Facts facts(const Performance& music, const Performed& performed,
                  const PerformOptions& options, const std::string& tuning) {
    const auto some = [](const char* label, std::size_t count) { return count > 0 ? label : ""; };
    return {"",
            "",
            {{"Tuning", tuning, "tuning"},
             {"By", how(options), "by"},
             {"Notes", page::count(performed.notes), "notes"},
             {performed.message ? "Messages" : "",
              performed.message ? std::string(row_of(*performed.message).name) : "", "message"},
             {performed.message ? "Retuned while playing" : "", page::count(performed.retunings),
              "retunings"},
             {"Channels", page::count(performed.channels), "channels"},
             {"Largest error", page::cents(performed.worst_error).shown_with(3).in("cents"),
              "worst_error_cents"},
             {some("Unmatched", music.unmatched.size()), page::count(music.unmatched.size()), ""},
             {some("Left out", performed.left_out.size()), score::counted(performed.left_out),
              "left_out"}}};
}

/// Notes for which no channel was free.
page::Table crowded(const Performance& music, const Performed& performed) {
    const std::vector<CrowdedNote>& notes = performed.crowded;
    page::Table table{"crowded", notes.empty() ? "" : "No free channel for", {}, {}};
    table.add(notes, Column{"Part", ColumnKind::words}.keyed("part"),
              [&](const CrowdedNote& note) { return music.instruments[note.instrument].name; });
    table.add(notes, Column{"Beat"}.keyed("beat"), [&](const CrowdedNote& note) {
        return page::number(Rational(note.at, music.time_base.ticks) + 1);
    });
    table.add(notes, Column{"Key"}.keyed("key"),
              [](const CrowdedNote& note) { return page::count(note.key); });
    table.add(notes, Column{"Error in cents"}.keyed("error_cents"),
              [](const CrowdedNote& note) { return page::cents(note.error).with_sign(); });
    return table;
}

page::Paragraphs remarks(const Performance& music, const Performed& performed) {
    page::Paragraphs notes;
    const auto say = [&](std::string text) {
        notes.paragraphs.push_back({page::Role::caution, std::move(text)});
    };
    if (!music.unmatched.empty())
        say(fmt::format("{} notes are not in the tuning; they sound in 12 equal steps. {}",
                        music.unmatched.size(), music.cure));
    if (music.begun_bent > 0)
        say(bent_caution(music));
    if (!performed.crowded.empty())
        say(fmt::format("{} notes found every channel taken by other pitches. They sound with the "
                        "error beside them, or bend the dying sound of a pedalled note.",
                        performed.crowded.size()));
    return notes;
}

} // namespace

std::string bent_caution(const Performance& music) {
    return fmt::format(
        "{} notes begin while the file bends them, and the tuning is added to that. A "
        "file that is tuned already is tuned twice: perform the one it was made from.",
        music.begun_bent);
}

page::Page performance_page(const Performance& music, const Performed& performed,
                            const PerformOptions& options, const std::string& tuning) {
    page::Page page;
    page.title = "Performance";
    page.kind = "performance";
    page.blocks = {facts(music, performed, options, tuning), remarks(music, performed),
                   crowded(music, performed), unmatched_notes(music.unmatched, music.names)};
    if (!music.unmatched.empty())
        page.blocks.push_back(unmatched_kinds(music.unmatched, music.names));
    return page;
}

} // namespace sectio::tuning
