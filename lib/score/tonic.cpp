#include <sectio/interval/expression.hpp>
#include <sectio/score/tonic.hpp>

#include <cctype>

namespace sectio::score {

namespace {

NoteInOctave note_of(int key, const std::string& text) {
    const char letter = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
    if (letter >= 'A' && letter <= 'G')
        if (const auto note = note_with_letter(key, letter))
            return *note;
    return usual_note(key);
}

} // namespace

Tonic parse_tonic(const std::string& text, const Pitch& a4) {
    const KeyedPitch keyed = nearest_key(parse_pitch(text, a4), a4);
    const NoteInOctave note = note_of(keyed.key, text);
    const Alteration alteration{Rational(note.name.quarter_tones, 2), AlterationUnit::semitone};
    return {keyed.key, keyed.deviation, {note.name.letter, alteration, note.octave}, text};
}

} // namespace sectio::score
