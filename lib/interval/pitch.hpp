#pragma once
/// @file
/// Pitches (positions) as against intervals (distances), and their names in 12 equal steps.

#include <sectio/interval/interval.hpp>

#include <compare>
#include <string>

namespace sectio {

/// A sounding pitch: an exact frequency. Two pitches have an interval between them; a pitch and an
/// interval give a pitch; two pitches cannot be added.
class Pitch {
  public:
    /// @throws Error frequency_not_positive, pitch_out_of_range (limits::pitch_octaves from 1 Hz)
    static Pitch from_hertz(const Rational& frequency);
    /// The decimal with `digits` after the point that is nearest to `frequency`, half going to the
    /// even digit. @throws Error not_finite, digits_out_of_range, and those above
    static Pitch from_hertz(double frequency, int digits);
    /// A4 = 440 Hz. Source: ISO 16:1975.
    static const Pitch& concert_a();

    /// @throws Error pitch_out_of_range
    friend Pitch operator+(const Pitch& pitch, const Interval& interval);
    friend Pitch operator-(const Pitch& pitch, const Interval& interval) {
        return pitch + -interval;
    }
    friend Interval operator-(const Pitch& a, const Pitch& b) {
        return a.above_hertz_ - b.above_hertz_;
    }
    friend bool operator==(const Pitch& a, const Pitch& b) = default;
    friend std::strong_ordering operator<=>(const Pitch& a, const Pitch& b) {
        return a.above_hertz_ <=> b.above_hertz_;
    }

    /// Frequency in Hz with `digits` after the point, correctly rounded.
    std::string hertz(int digits) const { return above_hertz_.decimal(digits); }
    /// Frequency in Hz as the nearest double.
    double hertz() const { return above_hertz_.decimal(); }
    /// Frequency in Hz for use where a double's accuracy is enough (sound, drawing).
    double hertz_estimate() const;
    /// The frequency as a multiple of 1 Hz.
    const Interval& above_hertz() const { return above_hertz_; }

  private:
    explicit Pitch(Interval above_hertz);
    Interval above_hertz_;
};

/// Name of a note without octave: letter and alteration in quarter tones (F♯ is F, +2).
struct NoteName {
    char letter = 'C';     ///< 'A' … 'G'
    int quarter_tones = 0; ///< -4 … 4 in the signs known here; ♯ is +2, a quarter-tone sharp +1

    /// Keys above C in 12 equal steps, in quarter tones; C is 0, C♭ is -2, B is 22.
    /// @throws Error unfit_argument for another letter
    int quarter_tones_from_c() const;
    /// "F#", "Bb", "C"; with `unicode` "F♯", "B♭". @throws Error unfit_argument beyond those signs
    std::string text(bool unicode = false) const;
    friend bool operator==(const NoteName&, const NoteName&) = default;
};

/// Name of a key with its octave: F♯4.
struct NoteInOctave {
    NoteName name;
    int octave = 4;
    std::string text(bool unicode = false) const;
    friend bool operator==(const NoteInOctave&, const NoteInOctave&) = default;
};

/// A pitch said in 12 equal steps from `a4`: the MIDI key nearest to it and the rest. Exactly half
/// way between two keys the lower one is nearest.
struct KeyedPitch {
    int key = 69;       ///< MIDI key number, 60 = middle C; may be negative or above 127
    Interval deviation; ///< from that key to the pitch; more than -50 and at most +50 cents
};
KeyedPitch nearest_key(const Pitch& pitch, const Pitch& a4 = Pitch::concert_a());

/// The pitch of a MIDI key in 12 equal steps from `a4`.
Pitch pitch_of_key(int key, const Pitch& a4 = Pitch::concert_a());

/// MIDI key of a note without quarter tones. @throws Error unfit_argument for another letter, or an
/// octave beyond 100,000,000
int key_of(const NoteInOctave& note);

/// How the key is usually spelled: C C♯ D E♭ E F F♯ G G♯ A B♭ B (common practice, no source).
NoteInOctave usual_note(int key);

/// The key spelled with `letter`, if at most a double sign is needed for that.
std::optional<NoteInOctave> note_with_letter(int key, char letter);

} // namespace sectio

template <>
struct std::hash<sectio::Pitch> {
    std::size_t operator()(const sectio::Pitch& pitch) const {
        return std::hash<sectio::Interval>()(pitch.above_hertz());
    }
};
