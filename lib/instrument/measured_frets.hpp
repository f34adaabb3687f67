#pragma once
/// @file
/// Frets as a ruler finds them, turned into intervals above the open string.

#include <sectio/base/length.hpp>
#include <sectio/instrument/stretch.hpp>
#include <sectio/interval/interval.hpp>

#include <optional>
#include <string>
#include <vector>

namespace sectio {

/// One fret as it was measured.
struct FretReading {
    std::string name;        ///< what the table or the player calls it; may be empty
    MeasuredLength from_nut; ///< or from the fret before, where FretDistances::between is said
    std::optional<MeasuredLength> to_bridge; ///< where that side was measured too
    Place place;                             ///< where it was written, for errors
};

/// What a row of distances was measured from.
enum class FretDistances {
    from_nut, ///< each from the nut
    between,  ///< each from the fret before it, the first from the nut
};

/// How a string is pressed down, for its stretch; all that StretchedString needs, and the action.
struct Pressing {
    double gauge = 0;      ///< mm
    double modulus = 0;    ///< GPa
    double tension = 0;    ///< N
    MeasuredLength action; ///< at half the string's length
};

/// The string that the frets lie under.
struct MeasuredString {
    /// Nominal, nut to bridge; not needed where both sides of all frets were measured.
    std::optional<MeasuredLength> length;
    Length compensation; ///< by which the saddle stands behind the nominal length
    std::optional<Pressing> pressing;
};

/// A fret's interval above the open string.
struct MeasuredFret {
    std::string name;
    MeasuredLength from_nut;
    Interval interval;                   ///< with the stretch, where that is known
    std::optional<Interval> stretch;     ///< what the stretch adds
    std::optional<Interval> uncertainty; ///< half width; none for exact figures
};

struct MeasuredFrets {
    std::vector<MeasuredFret> frets; ///< in the order in which they were written
    std::optional<Length> least_sum; ///< of nut to fret and fret to bridge, where both stand
    std::optional<Length> most_sum;
};

/// Intervals by frequency being inverse to length: exact ratios L/(L − x) of the figures as
/// written, or (x + b)/b where both sides of a fret were measured. The half width is what the half
/// widths of the figures leave (half_width.hpp), to first order: x by 1/(L − x), L by x/(L(L − x)),
/// and alike for the two sides; distances between frets add up.
///
/// A compensated string is longer than its nominal length by the compensation, which is there to
/// make good for the stretch. Where the stretch is known both are computed, and the interval is no
/// ratio any more; where it is not, neither is: the two are taken to cancel. The stretch is known
/// to half of itself at best, since the finger presses the string down behind the fret as it likes
/// (our choice, no source), and its half width has that beside what the action leaves.
/// @throws Error length_missing, fret_beyond_bridge, fret_behind_nut, no_fret_readings,
///         compensation_too_far, too_many_frets beyond limits::scale_degrees
MeasuredFrets measure_frets(const MeasuredString& string, const std::vector<FretReading>& readings,
                            FretDistances distances = FretDistances::from_nut);

} // namespace sectio
