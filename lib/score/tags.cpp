#include <sectio/score/tags.hpp>

#include <array>

namespace sectio::score {

namespace {

/// Sorted by parent; inside a parent the commonest first. A part and a measure may each hold the
/// other (partwise, timewise), so music is listed under both.
constexpr std::array entries{
    TagEntry{Tag::document, "score-partwise", Tag::root, false},
    TagEntry{Tag::document, "score-timewise", Tag::root, false},
    TagEntry{Tag::root, "part", Tag::part, false},
    TagEntry{Tag::root, "measure", Tag::measure, false},
    TagEntry{Tag::root, "credit", Tag::credit, false},
    TagEntry{Tag::root, "part-list", Tag::part_list, false},
    TagEntry{Tag::root, "defaults", Tag::defaults, false},
    TagEntry{Tag::root, "work", Tag::work, false},
    TagEntry{Tag::root, "movement-title", Tag::movement_title, true},
    TagEntry{Tag::root, "identification", Tag::identification, false},
    TagEntry{Tag::work, "work-title", Tag::work_title, true},
    TagEntry{Tag::identification, "creator", Tag::creator, true},
    TagEntry{Tag::defaults, "page-layout", Tag::page_layout, false},
    TagEntry{Tag::page_layout, "page-margins", Tag::page_margins, false},
    TagEntry{Tag::page_layout, "page-height", Tag::page_height, true},
    TagEntry{Tag::page_layout, "page-width", Tag::page_width, true},
    TagEntry{Tag::page_margins, "right-margin", Tag::right_margin, true},
    TagEntry{Tag::page_margins, "top-margin", Tag::top_margin, true},
    TagEntry{Tag::page_margins, "left-margin", Tag::left_margin, true},
    TagEntry{Tag::page_margins, "bottom-margin", Tag::bottom_margin, true},
    TagEntry{Tag::credit, "credit-words", Tag::credit_words, true},
    TagEntry{Tag::part_list, "score-part", Tag::score_part, false},
    TagEntry{Tag::score_part, "part-name", Tag::part_name, true},
    TagEntry{Tag::part, "note", Tag::note, false},
    TagEntry{Tag::part, "measure", Tag::measure, false},
    TagEntry{Tag::part, "attributes", Tag::attributes, false},
    TagEntry{Tag::part, "direction", Tag::direction, false},
    TagEntry{Tag::part, "barline", Tag::barline, false},
    TagEntry{Tag::part, "backup", Tag::backup, false},
    TagEntry{Tag::part, "forward", Tag::forward, false},
    TagEntry{Tag::measure, "note", Tag::note, false},
    TagEntry{Tag::measure, "part", Tag::part, false},
    TagEntry{Tag::measure, "attributes", Tag::attributes, false},
    TagEntry{Tag::measure, "direction", Tag::direction, false},
    TagEntry{Tag::measure, "barline", Tag::barline, false},
    TagEntry{Tag::measure, "backup", Tag::backup, false},
    TagEntry{Tag::measure, "forward", Tag::forward, false},
    TagEntry{Tag::attributes, "divisions", Tag::divisions, true},
    TagEntry{Tag::attributes, "key", Tag::key, false},
    TagEntry{Tag::attributes, "transpose", Tag::transpose, false},
    TagEntry{Tag::key, "fifths", Tag::fifths, true},
    TagEntry{Tag::key, "key-step", Tag::key_step, true},
    TagEntry{Tag::key, "key-alter", Tag::key_alter, true},
    TagEntry{Tag::key, "key-accidental", Tag::key_accidental, true},
    TagEntry{Tag::transpose, "diatonic", Tag::diatonic, true},
    TagEntry{Tag::transpose, "chromatic", Tag::chromatic, true},
    TagEntry{Tag::transpose, "octave-change", Tag::octave_change, true},
    TagEntry{Tag::note, "pitch", Tag::pitch, false},
    TagEntry{Tag::note, "duration", Tag::duration, true},
    TagEntry{Tag::note, "voice", Tag::voice, true},
    TagEntry{Tag::note, "staff", Tag::staff, true},
    TagEntry{Tag::note, "accidental", Tag::accidental, true},
    TagEntry{Tag::note, "lyric", Tag::lyric, false},
    TagEntry{Tag::note, "notations", Tag::notations, false},
    TagEntry{Tag::note, "chord", Tag::chord, false},
    TagEntry{Tag::note, "rest", Tag::rest, false},
    TagEntry{Tag::note, "tie", Tag::tie, false},
    TagEntry{Tag::note, "grace", Tag::grace, false},
    TagEntry{Tag::note, "cue", Tag::cue, false},
    TagEntry{Tag::note, "unpitched", Tag::unpitched, false},
    TagEntry{Tag::note, "play", Tag::play, false},
    TagEntry{Tag::note, "listen", Tag::play, false},
    TagEntry{Tag::pitch, "step", Tag::step, true},
    TagEntry{Tag::pitch, "octave", Tag::octave, true},
    TagEntry{Tag::pitch, "alter", Tag::alter, true},
    TagEntry{Tag::notations, "tied", Tag::tied, false},
    TagEntry{Tag::notations, "fermata", Tag::breath, false},
    TagEntry{Tag::notations, "articulations", Tag::articulations, false},
    TagEntry{Tag::articulations, "breath-mark", Tag::breath, false},
    TagEntry{Tag::articulations, "caesura", Tag::breath, false},
    TagEntry{Tag::barline, "bar-style", Tag::bar_style, true},
    TagEntry{Tag::backup, "duration", Tag::duration, true},
    TagEntry{Tag::forward, "duration", Tag::duration, true},
    TagEntry{Tag::direction, "direction-type", Tag::direction_type, false},
    TagEntry{Tag::direction_type, "words", Tag::words, true},
};

constexpr std::size_t tag_count = static_cast<std::size_t>(Tag::words) + 1;

/// First entry of each parent, and one behind its last.
struct Range {
    unsigned char first = 0, last = 0;
};

constexpr std::array<Range, tag_count> ranges = [] {
    std::array<Range, tag_count> found{};
    for (std::size_t i = 0; i < entries.size(); ++i) {
        Range& range = found[static_cast<std::size_t>(entries[i].parent)];
        if (range.last == 0)
            range.first = static_cast<unsigned char>(i);
        range.last = static_cast<unsigned char>(i + 1);
    }
    return found;
}();

} // namespace

const TagEntry* known_tag(Tag parent, std::string_view name) {
    const Range range = ranges[static_cast<std::size_t>(parent)];
    for (std::size_t i = range.first; i < range.last; ++i)
        if (entries[i].name == name)
            return &entries[i];
    return nullptr;
}

} // namespace sectio::score
