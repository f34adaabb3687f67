#include <sectio/base/argument.hpp>
#include <sectio/measure/readings_page.hpp>
#include <sectio/scale/tuned_scale.hpp>

#include <fmt/format.h>

namespace sectio::measure {

namespace {

/// A pitch as it is written down: "E4-41.25c", the mean to a thousandth of a cent.
StatedPitch stated(const Pitch& pitch, const Pitch& a4) {
    return StatedPitch::by_key(pitch, a4, 3);
}

/// Readings that repeat a note: the degrees of freedom of their scatter.
std::size_t repeated(const std::vector<ReadNote>& notes) {
    std::size_t again = 0;
    for (const ReadNote& note : notes)
        again += note.readings - 1;
    return again;
}

constexpr const char* single_readings =
    "Each note was read once: ± is the last digit of the tuner, or what was stated, and says "
    "nothing of how far the tuner, the stroke and the string differ from one reading to the next. "
    "Read each note three times or more.";
constexpr const char* few_readings =
    "So few readings say little of how they scatter, so the half widths are wide. Read each note "
    "three times or more.";

} // namespace

PitchList read_pitches(const std::vector<ReadNote>& notes, const std::optional<StatedPitch>& tonic,
                       const Pitch& a4) {
    check_argument(!notes.empty(), "a list of notes", "one note at least");
    PitchList list;
    list.name = "Measured pitches";
    list.zero = tonic ? tonic->at(a4) : notes.front().pitch;
    list.tonic = tonic ? *tonic : stated(*list.zero, a4);
    if (!tonic)
        list.tonic_at = 0;
    for (const ReadNote& note : notes) {
        ListedPitch pitch;
        pitch.above = {note.pitch - *list.zero, note.uncertainty, note.basis};
        pitch.sounds = stated(note.pitch, a4);
        pitch.written = pitch.sounds->text();
        pitch.label = note.label;
        list.pitches.push_back(std::move(pitch));
    }
    return list;
}

page::Page readings_page(const PitchList& list, const std::vector<ReadNote>& notes,
                         const Pitch& a4) {
    check_argument(list.pitches.size() == notes.size(), "a list of readings' pitches",
                   "what read_pitches() made of the notes");
    page::Table table = pitch_table(list, a4);
    table.add(notes, page::Column{"Readings"}.keyed("readings"),
              [](const ReadNote& n) { return page::count(n.readings); });
    table.add(notes, page::Column{"Spread"}.keyed("spread_cents"),
              [](const ReadNote& n) -> page::Cell {
                  return n.spread ? page::Cell(page::cents(*n.spread)) : page::Cell();
              });
    page::Page page = measured_page(list, a4, "measured-pitches", std::move(table));
    if (const std::size_t again = repeated(notes); again < 3) {
        page::Paragraphs advice;
        advice.paragraphs.push_back(
            {page::Role::note, again == 0 ? single_readings : few_readings});
        page.blocks.push_back(advice);
    }
    return page;
}

} // namespace sectio::measure
