#pragma once
/// @file
/// From what a maker asks for to a plan of frets.

#include <sectio/base/length.hpp>
#include <sectio/instrument/fret_page.hpp>
#include <sectio/instrument/instrument.hpp>
#include <sectio/scale/tuned_scale.hpp>

#include <optional>
#include <string>
#include <vector>

namespace sectio {

struct FretRequest {
    std::optional<StatedPitch> tonic{}; ///< this and the next as TuningOptions has them
    std::optional<TuningReference> reference{};
    std::vector<StatedPitch> opens{};    ///< open strings; none: one on the tonic
    std::optional<Length> length{};      ///< of all strings; without it the instrument's own
    std::optional<Length> last_length{}; ///< of the last; those between have lengths between
    std::optional<Length> nut_spread{}, bridge_spread{}; ///< between the outer strings
    std::size_t perpendicular = 0; ///< the fret that is square to the centre line; 0 the nut
    std::optional<Instrument> instrument{}; ///< whose strings, where `opens` is empty
    std::optional<Length> compensation{};   ///< without it the instrument's
    std::optional<Interval> up_to{};        ///< this and the next two as FretPlanOptions has them
    std::optional<std::size_t> frets{};
    Interval share{};
    std::string date{};
    bool inches = false; ///< beside millimetres
};

/// Plans frets for `scale` on a tonic. An open string that is written as a note alone (A3) is the
/// scale's degree of that key, if one lies within 50 cents of it, since strings are tuned to the
/// scale; with cents or in hertz (A3+0c, 220Hz) it is that pitch exactly.
/// @throws Error plan_without_length, length_not_positive, neck_without_spread, neck_of_one_string,
/// no_such_fret, and those of plan_frets(), check() of a neck and tuned()
FretSheet fret_sheet(Scale scale, const FretRequest& request);

} // namespace sectio
