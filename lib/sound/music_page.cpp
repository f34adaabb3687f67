#include <sectio/score/annotation_page.hpp>
#include <sectio/sound/music_page.hpp>
#include <sectio/tuning/performance_page.hpp>

#include <fmt/format.h>

#include <memory>

namespace sectio::sound {

namespace {

using page::Column;
using page::ColumnKind;
using tuning::Performance;

page::Facts facts(const Performance& performance, const Music& music, const std::string& tuning) {
    page::Facts facts;
    facts.facts = {{"Tuning", tuning, "tuning"},
                   {"Notes", page::count(music.notes.size()), "count"},
                   {"Length", page::number(music.seconds()).shown_with(1).in("s"), "seconds"}};
    const auto add = [&](page::Fact fact) { facts.facts.push_back(std::move(fact)); };
    for (page::Fact& drone : drone_facts(music.drones))
        add(std::move(drone));
    if (!performance.unmatched.empty())
        add({"Unmatched", page::count(performance.unmatched.size()), ""});
    add({music.left_out.empty() ? "" : "Left out", score::counted(music.left_out), "left_out"});
    return facts;
}

/// For programs, and made when they ask; people have the score.
page::Table notes(const Performance& performance, const Music& music) {
    page::Table table{"notes", "", {}, {}};
    const auto kept = std::make_shared<const Music>(music);
    const auto add = [&](const char* key, auto cell) {
        table.add_later(kept->notes.size(), Column{}.keyed(key).hidden(),
                        [kept, cell](std::size_t i) { return cell(*kept, kept->notes[i]); });
    };
    add("start_s", [](const Music& all, const MusicNote& note) {
        return page::number(all.seconds_at(note.begin));
    });
    add("seconds", [](const Music& all, const MusicNote& note) {
        return page::number(all.seconds_at(note.end) - all.seconds_at(note.begin));
    });
    add("hz",
        [](const Music& all, const MusicNote& note) { return page::hertz(all.pitch_of(note)); });
    std::vector<std::string> parts;
    for (const tuning::Instrument& instrument : performance.instruments)
        parts.push_back(instrument.name);
    add("part", [parts](const Music&, const MusicNote& note) { return parts[note.instrument]; });
    return table;
}

} // namespace

page::Paragraphs sound_caution(double swell_s) {
    return {"cautions",
            "",
            {{page::Role::caution,
              fmt::format("Begin with the volume turned down, above all with headphones; the sound "
                          "starts quietly and grows for {:g} {}.",
                          swell_s, swell_s == 1 ? "second" : "seconds")}}};
}

std::vector<page::Fact> drone_facts(const std::vector<Pitch>& drones) {
    std::vector<page::Fact> facts;
    for (const Pitch& drone : drones)
        facts.push_back(
            {"Drone", page::hertz(drone).in("Hz").shown_with(3), facts.empty() ? "drone_hz" : ""});
    return facts;
}

page::Table drone_table(const std::vector<Pitch>& drones) {
    page::Table table{"drones", "", {}, {}};
    table.add(drones, Column{}.keyed("hz").hidden(),
              [](const Pitch& drone) { return page::hertz(drone); });
    return table;
}

page::Page music_page(const Performance& performance, const Music& music,
                      const std::string& tuning) {
    page::Page page;
    page.title = "Music, to be heard";
    page.kind = "music";
    page::Paragraphs caution = sound_caution(music.swell_s);
    if (!performance.unmatched.empty())
        caution.paragraphs.push_back(
            {page::Role::caution,
             fmt::format("{} notes are not in the tuning; they sound in 12 equal steps. {}",
                         performance.unmatched.size(), performance.cure)});
    if (performance.begun_bent > 0)
        caution.paragraphs.push_back({page::Role::caution, tuning::bent_caution(performance)});
    page.blocks = {facts(performance, music, tuning), drone_table(music.drones),
                   notes(performance, music), caution,
                   unmatched_notes(performance.unmatched, performance.names)};
    if (!performance.unmatched.empty())
        page.blocks.push_back(unmatched_kinds(performance.unmatched, performance.names));
    return page;
}

} // namespace sectio::sound
