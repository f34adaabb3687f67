#pragma once
/// @file
/// Pitches and references as people state them: values that keep how they were written.

#include <sectio/base/error.hpp>
#include <sectio/interval/pitch.hpp>

#include <optional>
#include <string>
#include <string_view>

namespace sectio {

class TextCursor;

/// A pitch as it is stated: a frequency, or a note that sounds where the reference puts it.
class StatedPitch {
  public:
    /// Reads `D4`, `F#4-14c`, `293Hz` as parse_pitch() does. `place` is where `text` begins.
    /// @throws Error with the piece and its place, ErrorCode::unusable
    StatedPitch(std::string_view text, const Place& place = {});
    StatedPitch(const std::string& text) : StatedPitch(std::string_view(text)) {}
    StatedPitch(const char* text) : StatedPitch(std::string_view(text)) {}
    /// A note and the cents from it to the pitch, which end after some decimal place.
    /// @throws Error unfit_argument for other cents
    StatedPitch(const NoteInOctave& note, const Rational& cents = 0);
    /// The usual note of its nearest key and the cents from there with `digits` after the point,
    /// which are left out where they are 0. @throws Error digits_out_of_range
    static StatedPitch by_key(const Pitch& pitch, const Pitch& a4, int digits);
    /// A frequency above 0, which ends after some decimal place.
    static StatedPitch in_hertz(const Rational& hertz);

    /// What sounds where A4 is `a4`. @throws Error those of Pitch::from_hertz(), pitch_out_of_range
    Pitch at(const Pitch& a4) const;
    /// The note that is named, where none is a frequency.
    const std::optional<NoteInOctave>& note() const { return note_; }
    /// A note alone, without cents: a key, and not some pitch near it.
    bool is_key() const { return note_ && !cents_; }
    /// As it was written, without blanks around it.
    const std::string& text() const { return text_; }

    friend bool operator==(const StatedPitch&, const StatedPitch&) = default;

  private:
    friend StatedPitch read_stated(TextCursor& in);
    StatedPitch() = default;

    std::string text_;
    std::optional<NoteInOctave> note_;
    std::optional<Rational> cents_; ///< that were written after the note
    Rational hertz_;                ///< without a note
};

/// Reads a tonic, a pitch or a note alone: `D` means D4.
/// @throws Error with the piece and its place, ErrorCode::unusable
StatedPitch parse_tonic(std::string_view text, const Place& place = {});

/// What A4 sounds at, as it is stated. Source of the note that is meant: ISO 16:1975.
class TuningReference {
  public:
    /// Reads `A4 = 440 Hz`, `A4=442`, `C4=256Hz`, `442Hz` as parse_reference() does.
    /// @throws Error with the piece and its place, ErrorCode::unusable
    TuningReference(std::string_view text, const Place& place = {});
    TuningReference(const std::string& text) : TuningReference(std::string_view(text)) {}
    TuningReference(const char* text) : TuningReference(std::string_view(text)) {}

    const Pitch& a4() const { return a4_; }
    /// As it was written.
    const std::string& text() const { return text_; }

    friend bool operator==(const TuningReference&, const TuningReference&) = default;

  private:
    std::string text_;
    Pitch a4_;
};

} // namespace sectio
