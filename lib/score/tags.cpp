#include <sectio/score/tags.hpp>

#include <array>

namespace sectio::score {

namespace {

/// Sorted by parent; inside a parent the commonest first. A part and a measure may each hold the
/// other (partwise, timewise), so music is listed under both.
constexpr std::array tag_entries{
    TagEntry{Tag::document, "score-partwise", Tag::root, Context::none, false},
    TagEntry{Tag::document, "score-timewise", Tag::root, Context::none, false},
    TagEntry{Tag::root, "part", Tag::part, Context::measures, false},
    TagEntry{Tag::root, "measure", Tag::measure, Context::measures, false},
    TagEntry{Tag::root, "credit", Tag::credit, Context::header, false},
    TagEntry{Tag::root, "part-list", Tag::part_list, Context::header, false},
    TagEntry{Tag::root, "defaults", Tag::defaults, Context::header, false},
    TagEntry{Tag::root, "work", Tag::work, Context::header, false},
    TagEntry{Tag::root, "movement-title", Tag::movement_title, Context::header, true},
    TagEntry{Tag::root, "identification", Tag::identification, Context::header, false},
    TagEntry{Tag::work, "work-title", Tag::work_title, Context::header, true},
    TagEntry{Tag::identification, "creator", Tag::creator, Context::header, true},
    TagEntry{Tag::defaults, "page-layout", Tag::page_layout, Context::header, false},
    TagEntry{Tag::page_layout, "page-margins", Tag::page_margins, Context::header, false},
    TagEntry{Tag::page_layout, "page-height", Tag::page_height, Context::header, true},
    TagEntry{Tag::page_layout, "page-width", Tag::page_width, Context::header, true},
    TagEntry{Tag::page_margins, "right-margin", Tag::right_margin, Context::header, true},
    TagEntry{Tag::page_margins, "top-margin", Tag::top_margin, Context::header, true},
    TagEntry{Tag::page_margins, "left-margin", Tag::left_margin, Context::header, true},
    TagEntry{Tag::page_margins, "bottom-margin", Tag::bottom_margin, Context::header, true},
    TagEntry{Tag::credit, "credit-words", Tag::credit_words, Context::header, true},
    TagEntry{Tag::part_list, "score-part", Tag::score_part, Context::header, false},
    TagEntry{Tag::score_part, "part-name", Tag::part_name, Context::header, true},
    TagEntry{Tag::score_part, "score-instrument", Tag::score_instrument, Context::header, false},
    TagEntry{Tag::score_part, "midi-instrument", Tag::midi_instrument, Context::header, false},
    TagEntry{Tag::midi_instrument, "midi-program", Tag::midi_program, Context::header, true},
    TagEntry{Tag::midi_instrument, "midi-channel", Tag::midi_channel, Context::header, true},
    TagEntry{Tag::part, "note", Tag::note, Context::note, false},
    TagEntry{Tag::part, "measure", Tag::measure, Context::measures, false},
    TagEntry{Tag::part, "attributes", Tag::attributes, Context::attributes, false},
    TagEntry{Tag::part, "direction", Tag::direction, Context::playing, false},
    TagEntry{Tag::part, "barline", Tag::barline, Context::playing, false},
    TagEntry{Tag::part, "backup", Tag::backup, Context::measures, false},
    TagEntry{Tag::part, "forward", Tag::forward, Context::measures, false},
    TagEntry{Tag::part, "sound", Tag::sound, Context::playing, false},
    TagEntry{Tag::measure, "note", Tag::note, Context::note, false},
    TagEntry{Tag::measure, "part", Tag::part, Context::measures, false},
    TagEntry{Tag::measure, "attributes", Tag::attributes, Context::attributes, false},
    TagEntry{Tag::measure, "direction", Tag::direction, Context::playing, false},
    TagEntry{Tag::measure, "barline", Tag::barline, Context::playing, false},
    TagEntry{Tag::measure, "backup", Tag::backup, Context::measures, false},
    TagEntry{Tag::measure, "forward", Tag::forward, Context::measures, false},
    TagEntry{Tag::measure, "sound", Tag::sound, Context::playing, false},
    TagEntry{Tag::attributes, "divisions", Tag::divisions, Context::attributes, true},
    TagEntry{Tag::attributes, "key", Tag::key, Context::attributes, false},
    TagEntry{Tag::attributes, "transpose", Tag::transpose, Context::attributes, false},
    TagEntry{Tag::key, "fifths", Tag::fifths, Context::attributes, true},
    TagEntry{Tag::key, "key-step", Tag::key_step, Context::attributes, true},
    TagEntry{Tag::key, "key-alter", Tag::key_alter, Context::attributes, true},
    TagEntry{Tag::key, "key-accidental", Tag::key_accidental, Context::attributes, true},
    TagEntry{Tag::transpose, "diatonic", Tag::diatonic, Context::attributes, true},
    TagEntry{Tag::transpose, "chromatic", Tag::chromatic, Context::attributes, true},
    TagEntry{Tag::transpose, "octave-change", Tag::octave_change, Context::attributes, true},
    TagEntry{Tag::note, "pitch", Tag::pitch, Context::note, false},
    TagEntry{Tag::note, "duration", Tag::duration, Context::note, true},
    TagEntry{Tag::note, "voice", Tag::voice, Context::note, true},
    TagEntry{Tag::note, "staff", Tag::staff, Context::note, true},
    TagEntry{Tag::note, "accidental", Tag::accidental, Context::note, true},
    TagEntry{Tag::note, "lyric", Tag::lyric, Context::note, false},
    TagEntry{Tag::note, "notations", Tag::notations, Context::note, false},
    TagEntry{Tag::note, "chord", Tag::chord, Context::note, false},
    TagEntry{Tag::note, "rest", Tag::rest, Context::note, false},
    TagEntry{Tag::note, "tie", Tag::tie, Context::note, false},
    TagEntry{Tag::note, "grace", Tag::grace, Context::note, false},
    TagEntry{Tag::note, "cue", Tag::cue, Context::note, false},
    TagEntry{Tag::note, "unpitched", Tag::unpitched, Context::note, false},
    TagEntry{Tag::note, "play", Tag::play, Context::note, false},
    TagEntry{Tag::note, "listen", Tag::play, Context::note, false},
    TagEntry{Tag::pitch, "step", Tag::step, Context::note, true},
    TagEntry{Tag::pitch, "octave", Tag::octave, Context::note, true},
    TagEntry{Tag::pitch, "alter", Tag::alter, Context::note, true},
    TagEntry{Tag::notations, "tied", Tag::tie, Context::note, false},
    TagEntry{Tag::notations, "fermata", Tag::breath, Context::note, false},
    TagEntry{Tag::notations, "articulations", Tag::articulations, Context::note, false},
    TagEntry{Tag::articulations, "breath-mark", Tag::breath, Context::note, false},
    TagEntry{Tag::articulations, "caesura", Tag::breath, Context::note, false},
    TagEntry{Tag::barline, "bar-style", Tag::bar_style, Context::playing, true},
    TagEntry{Tag::barline, "repeat", Tag::repeat, Context::playing, false},
    TagEntry{Tag::barline, "ending", Tag::ending, Context::playing, false},
    TagEntry{Tag::backup, "duration", Tag::backup_duration, Context::measures, true},
    TagEntry{Tag::forward, "duration", Tag::forward_duration, Context::measures, true},
    TagEntry{Tag::direction, "direction-type", Tag::direction_type, Context::playing, false},
    TagEntry{Tag::direction, "sound", Tag::sound, Context::playing, false},
    TagEntry{Tag::direction, "offset", Tag::offset, Context::playing, true},
    TagEntry{Tag::sound, "offset", Tag::sound_offset, Context::playing, true},
    TagEntry{Tag::sound, "midi-instrument", Tag::sound_instrument, Context::playing, false},
    TagEntry{Tag::sound_instrument, "midi-program", Tag::sound_program, Context::playing, true},
    TagEntry{Tag::direction_type, "words", Tag::words, Context::playing, true},
    TagEntry{Tag::direction_type, "metronome", Tag::metronome, Context::playing, false},
    TagEntry{Tag::metronome, "beat-unit", Tag::beat_unit, Context::playing, true},
    TagEntry{Tag::metronome, "beat-unit-dot", Tag::beat_unit_dot, Context::playing, false},
    TagEntry{Tag::metronome, "per-minute", Tag::per_minute, Context::playing, true},
};

constexpr std::size_t tag_count = static_cast<std::size_t>(Tag::per_minute) + 1;

/// First entry of each parent, and one after its last.
struct Range {
    unsigned char first = 0, last = 0;
};

constexpr std::array<Range, tag_count> ranges = [] {
    std::array<Range, tag_count> found{};
    for (std::size_t i = 0; i < tag_entries.size(); ++i) {
        Range& range = found[static_cast<std::size_t>(tag_entries[i].parent)];
        if (range.last == 0)
            range.first = static_cast<unsigned char>(i);
        range.last = static_cast<unsigned char>(i + 1);
    }
    return found;
}();

constexpr std::array<Context, tag_count> contexts = [] {
    std::array<Context, tag_count> found{};
    for (const TagEntry& entry : tag_entries)
        found[static_cast<std::size_t>(entry.tag)] = entry.context;
    return found;
}();

} // namespace

Context context_of(Tag tag) {
    return contexts[static_cast<std::size_t>(tag)];
}

const TagEntry* known_tag(Tag parent, std::string_view name) {
    // The first letter tells nearly all names of one length apart, without a call.
    const auto is_it = [name](std::string_view known) {
        return known.size() == name.size() && known.front() == name.front() && known == name;
    };
    const Range range = ranges[static_cast<std::size_t>(parent)];
    for (std::size_t i = range.first; i < range.last; ++i)
        if (is_it(tag_entries[i].name))
            return &tag_entries[i];
    return nullptr;
}

} // namespace sectio::score
