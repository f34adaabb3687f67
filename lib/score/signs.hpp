#pragma once
/// @file
/// Accidental signs as MusicXML 4.0 names them, and what each can mean.

#include <sectio/base/number.hpp>

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace sectio::score {

/// Place of a sign in all_signs(); `no_sign` where none is written.
using Sign = std::uint8_t;
inline constexpr Sign no_sign = 0;

/// The measure that an alteration counts in.
enum class AlterationUnit {
    semitone, ///< a twelfth of the octave
    comma,    ///< a 53rd of the octave, as in Turkish theory
};

/// How far a note stands from its natural step.
struct Alteration {
    Rational amount = 0;
    AlterationUnit unit = AlterationUnit::semitone;
    friend bool operator==(const Alteration&, const Alteration&) = default;

    /// Exactly so many semitones. (Comparing a Rational with an int by == calls itself without end
    /// in Boost 1.74 with C++20, so both sides are Rational.)
    bool is_semitones(const Rational& count) const {
        return unit == AlterationUnit::semitone && amount == count;
    }
    /// Sharps, flats or nothing: whole semitones, or no commas.
    bool is_plain() const {
        return amount == Rational(0)
               || (unit == AlterationUnit::semitone && amount.denominator() == 1);
    }
};

/// Two ways to read the signs. They differ for `sharp`, `flat`, the quarter and the double signs.
enum class SignTable {
    general, ///< semitones and quarter tones, as the MusicXML standard explains its names
    turkish, ///< commas after Arel, Ezgi and Uzdilek; numbered signs count commas
};

/// One accidental-value of MusicXML 4.0, or a glyph of SMuFL that stands for one.
struct SignEntry {
    std::string_view name;            ///< as in the file: "slash-flat", "accidentalKoron"
    std::string_view shown;           ///< the sign in Unicode where it has one, otherwise in words
    std::optional<int> quarter_tones; ///< general meaning in 24ths of the octave
    std::optional<int> commas;        ///< Turkish meaning in 53rds of the octave
};

/// Every sign; the first entry is "no sign".
std::span<const SignEntry> all_signs();

/// The sign of this name; empty for a name that MusicXML 4.0 lacks.
std::optional<Sign> sign_named(std::string_view name);

/// The sign that the attribute `smufl` of an accidental "other" says, such as "accidentalKoron";
/// empty for a glyph without a value of its own here.
std::optional<Sign> sign_of_glyph(std::string_view glyph);

/// What `sign` means; empty where the table gives it no meaning (`other`; signs of a foreign
/// practice).
std::optional<Alteration> meaning(Sign sign, SignTable table);

} // namespace sectio::score
