#include <sectio/sound/listening_page.hpp>
#include <sectio/sound/music_page.hpp>

namespace sectio::sound {

namespace {

using page::Column, page::ColumnKind;

page::Number seconds(double value) {
    return page::computed(value).shown_with(1);
}

page::Table note_table(const std::vector<SoundedNote>& notes) {
    page::Table table;
    table.key = "notes";
    table.heading = "Notes";
    table.add(notes, Column{"Start", ColumnKind::figure}.keyed("start_s"),
              [](const SoundedNote& n) { return seconds(n.start_s); });
    table.add(notes, Column{"Seconds", ColumnKind::figure}.keyed("seconds"),
              [](const SoundedNote& n) { return seconds(n.seconds); });
    table.add(notes, Column{"Degree", ColumnKind::figure}.keyed("degree"),
              [](const SoundedNote& n) { return page::count(n.number); });
    table.add(notes, Column{"What sounds", ColumnKind::words}.keyed("what"),
              [](const SoundedNote& n) { return n.neighbour ? "key" : "degree"; });
    table.add(notes, Column{"Key", ColumnKind::note}.keyed("note"),
              [](const SoundedNote& n) { return page::Note{n.note}; });
    table.add(notes, Column{"Hz", ColumnKind::figure}.keyed("hz"),
              [](const SoundedNote& n) { return page::hertz(n.pitch).shown_with(3); });
    return table;
}

} // namespace

page::Page listening_page(const Listening& listening, const std::string& name) {
    page::Page page;
    page.title = name + ", to be heard";
    page.kind = "listening";
    page::Facts facts;
    facts.facts = {{"Scale", name, "name"},
                   {"Length", seconds(listening.seconds).in("s"), "seconds"}};
    for (page::Fact& drone : drone_facts(listening.drones))
        facts.facts.push_back(std::move(drone));
    page.blocks.push_back(std::move(facts));
    page.blocks.push_back(drone_table(listening.drones));
    page.blocks.push_back(note_table(listening.notes));
    page.blocks.push_back(sound_caution(listening.swell_s));
    return page;
}

} // namespace sectio::sound
