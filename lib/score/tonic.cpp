#include <sectio/base/text_cursor.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/score/tonic.hpp>

#include <algorithm>
#include <cstdlib>

namespace sectio::score {

namespace {

/// The note as `text` spells it, which parse_tonic() has read: a D half-sharp is no D♯, and a D of
/// 80 cents more is none either.
NoteInOctave written_note(std::string_view text) {
    const std::string_view note = trimmed(text);
    const std::size_t digits = note.find_first_of("0123456789");
    const std::size_t octave = std::min({digits, note.find('-'), note.find("−")});
    const int number = std::atoi(std::string(note.substr(digits)).c_str());
    return {parse_note_name(trimmed(note.substr(0, octave))), octave < digits ? -number : number};
}

} // namespace

WrittenTonic written_tonic(const Tonic& tonic, const Pitch& a4) {
    const NoteInOctave note = tonic.named ? written_note(tonic.written) : tonic.note;
    const Alteration alteration{Rational(note.name.quarter_tones, 2), AlterationUnit::semitone};
    const WrittenPitch written{note.name.letter, alteration, note.octave};
    const int key = base_key(written);
    return {key, tonic.pitch - pitch_of_key(key, a4), written, tonic.written};
}

WrittenTonic written_tonic(const std::string& text, const Pitch& a4) {
    return written_tonic(parse_tonic(text, a4), a4);
}

} // namespace sectio::score
