#include <sectio/score/tonic.hpp>

namespace sectio::score {

WrittenTonic written_tonic(const Tonic& tonic, const Pitch& a4) {
    const NoteInOctave note = tonic.named ? *tonic.stated.note() : tonic.note;
    const Alteration alteration{Rational(note.name.quarter_tones, 2), AlterationUnit::semitone};
    const WrittenPitch written{note.name.letter, alteration, note.octave};
    const int key = base_key(written);
    return {key, tonic.pitch - pitch_of_key(key, a4), written, tonic.written()};
}

} // namespace sectio::score
