#pragma once
/// @file
/// A scale written as notes on a staff: which letter, which sign, and how far the degree lies from
/// what is written.

#include <sectio/scale/tuned_scale.hpp>
#include <sectio/score/written.hpp>

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace sectio::score {

enum class Clef { treble, octave_treble, alto, bass };

/// A clef as engravers and MusicXML name its parts.
struct ClefEntry {
    Clef clef;
    std::string_view name; ///< as --clef takes it
    char sign;             ///< of MusicXML: G, C, F
    int line;              ///< that it stands on, 1 the lowest
    int octave_change;     ///< -1: sounds an octave lower than it looks
    int middle_line;       ///< staff_place() of the pitch that sounds on the third line
};
const ClefEntry& entry_of(Clef clef);
const std::array<ClefEntry, 4>& all_clefs();

/// Letters above C0: C4 is 28.
int staff_place(const WrittenPitch& pitch);
/// Half spaces from the third line up; the lines are at -4, -2, 0, 2 and 4.
int height_on_staff(const WrittenPitch& pitch, Clef clef);

/// A degree as it is written.
struct StaffNote {
    WrittenPitch pitch;     ///< that sounds by the sign; the clef may show it elsewhere
    Sign sign = no_sign;    ///< to be drawn: a natural where the line had another sign before
    Interval deviation;     ///< degree minus what is written
    std::size_t number = 1; ///< 1 the lowest degree; the period has the last
    std::string name;       ///< of the degree; may be empty
    std::optional<Interval> uncertainty; ///< of a measured degree
};

struct StaffScale {
    SignStyle style = SignStyle::plain;
    Clef clef = Clef::treble;
    std::vector<StaffNote> notes;
};

/// Whether a sign of this name, as MusicXML has it, is one of Persian notation: koron or sori.
bool is_persian(std::string_view sign);

/// The sign that means `alteration` in the style. Precondition: there is one.
Sign sign_of(const Alteration& alteration, SignStyle style);

/// Scale::signs; where the scale does not say: commas where all degrees are steps of 53, quarter
/// tones where they are steps of 24 and some is not one of 12, else plain signs.
SignStyle usual_style(const Scale& scale);

/// The scale written in a style; without one usual_style(). Without a clef, treble or bass, which
/// needs the fewer ledger lines.
StaffScale staff_scale(const TunedScale& scale, std::optional<SignStyle> style = std::nullopt,
                       std::optional<Clef> clef = std::nullopt);

/// "treble", "octave-treble", "alto", "bass", or nothing for "auto".
/// @throws Error unknown_clef
std::optional<Clef> parse_clef(std::string_view text, const Place& place = {});

} // namespace sectio::score
