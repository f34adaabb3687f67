#pragma once
/// @file
/// Written pitches: a letter, an alteration and an octave, and the key of 12 equal steps they
/// belong to.

#include <sectio/score/reading.hpp>

#include <string>

namespace sectio::score {

/// A note as it is read, before any tuning: a place on the staff, not a frequency.
struct WrittenPitch {
    char step = 'C';
    Alteration alteration;
    int octave = 4;
    friend bool operator==(const WrittenPitch&, const WrittenPitch&) = default;
};

/// Keys of 12 equal steps from C up to the plain letter: C 0, D 2, … B 11.
int keys_of_letter(char step);
/// Place of the plain letter in the chain of fifths: F -1, C 0, G 1, … B 5.
int fifths_of_letter(char step);
/// Commas (53 to the octave) from C up to the plain letter: C 0, D 9, E 18, F 22, G 31, A 40, B 49.
int commas_of_letter(char step);

/// The alteration in semitones; a comma is 12/53 of one.
Rational semitones(const Alteration& alteration);

/// The alteration in whole semitones: the nearest number, and of two equally near ones that closer
/// to the plain letter, so that a quarter-sharp F belongs to F and not to F♯.
int whole_semitones(const Alteration& alteration);

/// MIDI key of 12 equal steps that the note's deviation is counted from: the letter altered by
/// whole_semitones().
int base_key(const WrittenPitch& pitch);

/// Semitones above C-1 (MIDI key 0), exactly; orders the notes of a chord.
Rational height(const WrittenPitch& pitch);

/// The pitch that sounds where `written` stands in a part with this transposition. Letters move by
/// the stated `diatonic` steps, or by the usual number for the semitones where none is stated.
WrittenPitch sounding(const WrittenPitch& written, const Transposition& transposition);

/// Semitones by which a part with this transposition sounds above what is written, exactly.
Rational moved_keys(const Transposition& transposition);

/// How names are written.
enum class NameStyle { ascii, unicode };

/// The letter with whole semitones as sharps or flats: "F#", "B♭", "C".
std::string plain_name(char step, int semitones, NameStyle style);

/// The written note without octave: "F#", "B♭", with the sign in words or numbers where there is no
/// plain one: "B -1 comma", "F +1/2".
std::string text(const WrittenPitch& pitch, NameStyle style);
/// The same with its octave: "F#4", "B4 -1 comma".
std::string text_with_octave(const WrittenPitch& pitch, NameStyle style);

} // namespace sectio::score
