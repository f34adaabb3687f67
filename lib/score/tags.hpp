#pragma once
/// @file
/// Private to lib/score: the elements of MusicXML that the reader knows, each under the parent
/// where it counts.

#include <string_view>

namespace sectio::score {

enum class Tag : unsigned char {
    document, ///< above the root
    other,    ///< an element without interest, as are all inside it
    root,
    work,
    work_title,
    movement_title,
    identification,
    defaults,
    page_layout,
    page_margins,
    page_height,
    page_width,
    left_margin,
    right_margin,
    top_margin,
    bottom_margin,
    creator,
    credit,
    credit_words,
    part_list,
    score_part,
    part_name,
    score_instrument,
    midi_instrument,
    midi_program,
    midi_channel,
    part,
    measure,
    attributes,
    divisions,
    key,
    fifths,
    key_step,
    key_alter,
    key_accidental,
    transpose,
    diatonic,
    chromatic,
    octave_change,
    note,
    pitch,
    step,
    alter,
    octave,
    grace,
    cue,
    chord,
    rest,
    unpitched,
    duration,
    tie,
    voice,
    accidental,
    staff,
    notations,
    articulations,
    breath,
    barline,
    bar_style,
    repeat,
    ending,
    lyric,
    play,
    backup,
    backup_duration,
    forward,
    forward_duration,
    direction,
    direction_type,
    words,
    sound,
    sound_offset,
    sound_instrument,
    sound_program,
    offset,
    metronome,
    beat_unit,
    beat_unit_dot,
    per_minute,
};

/// The reader that an element belongs to; see context_readers.hpp.
enum class Context : unsigned char { none, header, attributes, note, measures, playing };

/// One known element.
struct TagEntry {
    Tag parent;
    std::string_view name;
    Tag tag;
    Context context;
    bool text; ///< its text is read
};

Context context_of(Tag tag);

/// The entry of the element `name` under `parent`, or null.
const TagEntry* known_tag(Tag parent, std::string_view name);

} // namespace sectio::score
