#pragma once
/// @file
/// Measured pitches in any order, as they came: what scales, melodies and identification are made
/// from.

#include <sectio/base/measured.hpp>
#include <sectio/scale/melody.hpp>
#include <sectio/scale/scale.hpp>

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace sectio {

/// An interval with its half width, and a pitch with its half width.
using MeasuredInterval = Measured<Interval>;
using MeasuredPitch = Measured<Pitch, Interval>;

/// One pitch of a list.
struct ListedPitch {
    MeasuredInterval above;            ///< PitchList::zero
    std::string written;               ///< as its author wrote it: "386c", "D4", "470.3Hz"
    std::optional<StatedPitch> sounds; ///< what `written` says where it is no interval
    std::string label;                 ///< what the player or the table calls it; may be empty
    std::string note;                  ///< note name in the author's notation; may be empty
    Rational weight{1};                ///< duration or count; above zero
    bool ends_phrase = false;
    Place place; ///< where it was read
};

/// Pitches in the order of their source; equal ones may stand there twice. Not a scale: nothing is
/// sorted, and no tonic is put in.
struct PitchList {
    std::string name; ///< never empty
    std::string source;
    std::optional<Pitch> zero;   ///< of the interval 1/1, where frequencies are known
    MeasuredInterval zero_error; ///< of a measured one that is none of the pitches; its figure is 0
    std::optional<std::size_t> tonic_at; ///< the measured pitch that sizes are counted from
    MelodyZero counted_from = MelodyZero::free;
    bool in_time = false;           ///< the order is that of a melody
    bool unison_understood = false; ///< counted from a tonic 1/1 that need not be listed
    bool rising = false;            ///< a scale is meant: each pitch above the one before
    std::optional<StatedPitch> tonic;
    std::optional<TuningReference> reference;
    std::optional<Interval> period; ///< where the author gave one, or means the octave
    /// Pitches of different periods that lie no farther apart, a period taken off, than this or
    /// than their half widths leave are one degree; nothing for those that are equal alone.
    std::optional<Interval> same_within;
    std::optional<SignStyle> signs;
    std::vector<ListedPitch> pitches;
    std::vector<std::string> remarks;
};

/// Pitches that a program measured or computed, in `cents` above a common zero, rounded to a
/// millionth of a cent. `half_width_cents` of all; 0 for exact ones.
/// @throws Error no_pitches, too_many_pitches, uncertainty_negative, and those of
/// Interval::from_cents()
PitchList pitches_of_cents(std::span<const double> cents, double half_width_cents = 0);
/// The same in `hertz`, rounded to a millionth; counted from the first.
PitchList pitches_of_hertz(std::span<const double> hertz, double half_width_cents = 0);
/// Each with a half width of its own. @throws Error half_widths_missing
PitchList pitches_of_cents(std::span<const double> cents, std::span<const double> half_widths);
PitchList pitches_of_hertz(std::span<const double> hertz, std::span<const double> half_widths);

/// What a pitch's size above the tonic may be off: by its own error and by that of a measured
/// tonic.
std::optional<Interval> half_width_above_tonic(const PitchList& list, const ListedPitch& pitch);

/// The list as a scale: rising from its tonic, equal pitches once. The tonic is the pitch
/// `tonic` (an index in the list); without it that next to PitchList::tonic, else the lowest of
/// sounding pitches, and of intervals the one that is 1/1 or understood, else the lowest.
/// A list in which a scale is meant is checked, not sorted.
///
/// With a period all pitches are brought into it; of those that PitchList::same_within makes one
/// degree the tonic stays, else the one that is known best, and a remark names those that differ by
/// more than their half widths. A degree's half width is that of its pitch and of the tonic's
/// together (half_width_between()); the tonic keeps its own. Where the first degree sounds, the
/// scale's tonic is its frequency or note as it was stated.
/// @throws Error no_pitches, no_degrees, too_many_degrees, degrees_not_rising,
/// degree_outside_period, unfit_argument for an index that is not there
Scale to_scale(const PitchList& list, std::optional<std::size_t> tonic = std::nullopt);

/// The list with each degree once: of pitches that PitchList::same_within makes one degree that
/// stays which to_scale() keeps, at its own place, and remarks say the same. Melodies, and lists
/// without a period or same_within, stay as they are. @throws Error too_many_degrees
PitchList each_degree_once(PitchList list);

/// The degrees of a scale as a list, without what closes its period.
PitchList to_list(const Scale& scale);

/// The period where it is no octave and stands not in the list: among the pitches it counts as one.
std::optional<Interval> unlisted_period(const PitchList& list);

/// The pitch of the list that is meant by `tonic`: the nearest, within 50 cents.
/// @throws Error tonic_not_listed
std::size_t listed_tonic(const PitchList& list, const Pitch& tonic, const Place& place = {});

/// The list as a melody or a bag of weighted pitches, in its own order; a tonic that is only
/// understood goes first.
Melody to_melody(const PitchList& list);

} // namespace sectio
