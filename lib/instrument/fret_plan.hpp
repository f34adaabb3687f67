#pragma once
/// @file
/// Where frets must lie for a scale: on one string or several, each string with frets of its own or
/// all with straight ones, and what sharing a straight fret costs each string.

#include <sectio/base/limits.hpp>
#include <sectio/instrument/stop_distance.hpp>
#include <sectio/scale/scale.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace sectio {

/// A string that frets are planned for.
struct PlannedString {
    std::string name; ///< as people call it: "melody", "D4"
    Interval open;    ///< above the tonic; falls for a string below it
    Length length;    ///< nominal, from nut to bridge
    bool fretted = true;
    Length compensation{}; ///< by which the saddle stands behind the nominal length
};

/// A degree of the scale on a string.
struct Stop {
    std::size_t string = 0; ///< index in the list of strings
    long degree = 0;       ///< running number: 0 the tonic, the first degree above it 1, one period
                           ///< higher the number of degrees; negative below the tonic
    std::size_t index = 0; ///< of the degree in the scale
    Interval wanted;       ///< above the open string
    Interval error;        ///< the fret minus `wanted`: negative where the fret is too flat
};

/// A straight fret under one string or several of equal length.
struct PlannedFret {
    Interval interval;       ///< above the open strings
    std::vector<Stop> stops; ///< the degrees that it serves, at most one a string
    /// Half width that the measured degrees leave to the place, as an interval; none for exact
    /// ones.
    std::optional<Interval> uncertainty;
};

/// The frets of all strings of one length.
struct Fretboard {
    Length length;
    std::vector<std::size_t> strings;
    std::vector<PlannedFret> frets; ///< from the nut on
};

struct FretPlan {
    Scale scale;
    std::vector<PlannedString> strings;
    std::vector<Fretboard> boards; ///< in the order of their first strings
    /// What the frets cost a string: the errors of all its degrees, in the order of the frets.
    std::vector<Interval> errors(std::size_t string) const;
    /// The scale's degree that a stop is; its closing one, if that has a name, at the first
    /// period's end.
    const Degree& degree_of(const Stop& stop) const;
};

/// Refuses a board that plan_frets() cannot have made: strings, stops or degrees that the plan does
/// not have, or a length of nothing; or a plan without boards or with such ones.
/// @throws Error unfit_argument
void check(const FretPlan& plan, const Fretboard& board);
void check(const FretPlan& plan);

struct FretPlanOptions {
    /// The highest interval above each open string that gets a fret, itself included; without it
    /// the scale's period, or its highest degree where it has none.
    std::optional<Interval> up_to{};
    /// So many frets at most on each board, counted from the nut; without up_to however far they
    /// go.
    std::optional<std::size_t> frets{};
    /// The most that a shared fret may miss any degree by; at 1/1 only equal intervals share one.
    Interval share{};
};

/// The degrees of `scale` above the open string `index`, rising, the first `most` of them.
/// @throws Error too_many_frets beyond limits::planned_stops
std::vector<Stop> stops_on(const PlannedString& string, std::size_t index, const Scale& scale,
                           const Interval& up_to, std::size_t most = limits::planned_stops + 1);

/// How far up a scale's frets go: up_to; without it as far as a number of frets that is asked goes,
/// else the scale's period, or its highest degree.
Interval reach_of(const Scale& scale, const FretPlanOptions& options = {});

/// As few straight frets as the cost `share` allows: going up from the nut, each fret takes in all
/// degrees within twice the cost of its lowest, one a string, and stands midway between the lowest
/// and the highest. Taking as many as possible each time is optimal, for whatever a fret can serve
/// it can serve without its lowest degrees.
/// @throws Error too_many_frets, share_negative, no_frets, length_not_positive,
/// compensation_too_far, and those of check_rules()
FretPlan plan_frets(Scale scale, std::vector<PlannedString> strings,
                    const FretPlanOptions& options = {});

/// Where a fret lies, from the nut of a string of `length`.
inline StopDistance place_of(const PlannedFret& fret, const Length& length) {
    return StopDistance::from_nut(length, fret.interval);
}

/// How far the place may lie to the side of place_of() for a measured degree. The nut's
/// side is the longer one and is taken for both.
std::optional<StopDistance> half_width_of(const PlannedFret& fret, const Length& length);

} // namespace sectio
