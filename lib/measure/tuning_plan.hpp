#pragma once
/// @file
/// What has to be done to strings that were read so that they sound in a scale.

#include <sectio/interval/real.hpp>
#include <sectio/measure/readings.hpp>
#include <sectio/page/page.hpp>
#include <sectio/scale/tuned_scale.hpp>

#include <string>
#include <vector>

namespace sectio::measure {

/// One string: what it sounds, and what it is to sound.
struct PlannedString {
    ReadNote now;
    Pitch target = Pitch::concert_a(); ///< a degree of the scale, in whichever period
    long number = 1;                   ///< of that degree
    std::string name;                  ///< of that degree; may be empty
    Interval change;                   ///< target minus pitch: above 1/1 the string is raised
    Interval within;                   ///< half width of the change
    bool in_tune() const;              ///< nothing that the reading could tell is to be changed
    bool is_raised() const;            ///< by more than `within`
};

/// Each note beside the degree that is nearest to the note that was written for it, else to what it
/// sounds.
/// @throws Error pitch_out_of_range
std::vector<PlannedString> tuning_plan(const std::vector<ReadNote>& notes, const TunedScale& scale);

/// By how many percent the tension of a string changes when its pitch changes. A flexible string
/// of the same length and mass: tension goes with the square of the frequency (M. Mersenne,
/// Harmonie universelle, 1636; from memory). Exact, 0 for no change.
Real tension_change_percent(const Interval& change);

/// The plan as a table, with keys and deviations as a tuner set to `a4` shows them, and what is to
/// be minded. Tension in newtons too where strings were measured.
/// @throws Error of tension_newtons()
std::vector<page::Block> tuning_plan_blocks(const std::vector<PlannedString>& plan,
                                            const Pitch& a4);

} // namespace sectio::measure
