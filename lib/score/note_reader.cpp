#include <sectio/base/text_cursor.hpp>
#include <sectio/score/context_readers.hpp>
#include <sectio/score/read_values.hpp>

#include <algorithm>
#include <limits>

namespace sectio::score {

namespace {

/// What an element says by being there; 0 for others.
std::uint16_t flag_of(Tag tag) {
    switch (tag) {
    case Tag::chord:
        return Note::chord;
    case Tag::grace:
        return Note::grace;
    case Tag::cue:
        return Note::cue;
    case Tag::breath:
        return Note::phrase_end;
    default:
        return 0;
    }
}

} // namespace

void NoteReader::open(Tag tag, const XmlStart& start, const XmlCursor& /*cursor*/) {
    switch (tag) {
    case Tag::note:
        open_note(start);
        break;
    case Tag::pitch:
        now_.pitched = true;
        break;
    case Tag::rest:
        now_.rest = true;
        break;
    case Tag::accidental:
        now_.glyph = sign_of_glyph(attribute(start, "smufl"));
        break;
    case Tag::play:
        now_.lyric_at = now_.lyric_at.value_or(start.offset);
        break;
    case Tag::tie:
        open_tie(start);
        break;
    case Tag::lyric:
        open_lyric(start);
        break;
    default:
        now_.note.flags |= flag_of(tag);
    }
}

void NoteReader::open_note(const XmlStart& start) {
    now_ = {};
    now_.at = start.offset;
    if (trimmed(attribute(start, "print-object")) == "no")
        now_.note.flags |= Note::hidden;
    if (start.in_entity)
        now_.note.flags |= Note::in_entity;
    now_.note.passes = builder_.passes(attribute(start, "time-only"));
    const auto loudness = decimal_number(attribute(start, "dynamics"));
    if (loudness && *loudness >= QuarterNotes())
        now_.note.velocity = velocity_of(*loudness);
}

void NoteReader::open_tie(const XmlStart& start) {
    const std::string_view kind = attribute(start, "type");
    if (kind == "start" || kind == "continue")
        now_.note.flags |= Note::tie_start;
    if (kind == "stop" || kind == "continue")
        now_.note.flags |= Note::tie_stop;
}

void NoteReader::open_lyric(const XmlStart& start) {
    constexpr int most_lines = 1'000'000'000;
    const int line = counting_attribute(start, "number", most_lines, 1);
    std::uint32_t& lines = builder_.score.lyric_lines;
    lines = std::max(lines, static_cast<std::uint32_t>(line));
}

void NoteReader::close(Tag tag, std::size_t offset, std::string_view text,
                       const XmlCursor& cursor) {
    switch (tag) {
    case Tag::note:
        close_note(offset, cursor);
        break;
    case Tag::accidental:
        now_.spelling.sign = builder_.sign(text, now_.glyph);
        break;
    case Tag::voice:
        now_.note.voice = builder_.voices(std::string(trimmed(text)));
        break;
    case Tag::staff:
        now_.note.staff =
            static_cast<std::uint16_t>(std::max(0, whole("staff", text, largest_staff, cursor)));
        break;
    case Tag::duration: {
        const QuarterNotes value = number("duration", text, cursor);
        if (value.num() < 0)
            refuse_number("duration", text, cursor);
        now_.note.duration = value / builder_.state().divisions;
        break;
    }
    default:
        close_pitch(tag, text, cursor);
    }
}

void NoteReader::close_pitch(Tag tag, std::string_view text, const XmlCursor& cursor) {
    if (tag == Tag::step) {
        now_.spelling.step = letter(text, cursor);
        now_.step = true;
    } else if (tag == Tag::alter) {
        now_.spelling.alter = within("alter", text, limits::score_alteration, cursor);
    } else if (tag == Tag::octave) {
        now_.note.octave =
            static_cast<std::int8_t>(whole("octave", text, limits::score_octaves, cursor));
        now_.octave = true;
    }
}

void NoteReader::close_note(std::size_t offset, const XmlCursor& cursor) {
    PartState& state = builder_.state();
    if (!state.has_head) // a chord has its first note in the same measure
        now_.note.flags &= static_cast<std::uint16_t>(~Note::chord);
    const bool chord = now_.note.is(Note::chord);
    if (!chord) {
        state.has_head = true;
        state.chord_size = 0;
        state.head_at = now_.at;
        state.head_in_entity = now_.note.is(Note::in_entity);
        state.head_onset = state.cursor;
    }
    Score& score = builder_.score;
    score.largest_chord = std::max(score.largest_chord, ++state.chord_size);
    if (now_.pitched)
        keep_note(offset, cursor);
    else
        ++(now_.rest ? score.without_pitch.rests : score.without_pitch.unpitched);
    if (!chord && !now_.note.is(Note::grace))
        state.move(now_.note.duration);
}

void NoteReader::keep_note(std::size_t offset, const XmlCursor& cursor) {
    if (!now_.step || !now_.octave)
        throw error(message::score_pitch_incomplete, "", cursor.place());
    PartState& state = builder_.state();
    Score& score = builder_.score;
    Note& note = now_.note;
    note.head_at = state.head_at;
    if (state.head_in_entity)
        note.flags |= Note::in_entity;
    note.lyric_at = now_.lyric_at.value_or(offset);
    note.onset = state.head_onset;
    note.measure = static_cast<std::uint32_t>(score.measures.size() - 1);
    note.part = static_cast<std::uint16_t>(builder_.part);
    note.spelling = note.tied = builder_.spellings(now_.spelling);
    note.key = state.keys.at(note.staff);
    note.transposition = state.transpositions.at(note.staff);
    tie(note);
    state.last_note = score.notes.size();
    score.notes.push_back(note);
}

/// A note that is tied to and has no sign keeps the pitch of the note before the tie, which
/// stands in its own voice or else in another.
void NoteReader::tie(Note& note) {
    auto& open = builder_.state().open_ties;
    const auto place = [&](std::uint16_t voice) {
        return std::tuple(now_.spelling.step, int{note.octave}, voice);
    };
    if (note.is(Note::tie_stop)) {
        auto found = open.find(place(note.voice));
        if (found == open.end())
            found = open.lower_bound(place(0));
        if (found != open.end()
            && found->first <= place(std::numeric_limits<std::uint16_t>::max())) {
            if (now_.spelling.sign == no_sign)
                note.tied = found->second;
            open.erase(found);
        }
    }
    if (note.is(Note::tie_start))
        open[place(note.voice)] = note.tied;
}

} // namespace sectio::score
