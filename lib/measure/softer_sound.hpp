#pragma once
/// @file
/// Private to lib/measure: whether what lies below a note's partials is its own, or rings on.

#include <sectio/measure/partials.hpp>
#include <sectio/measure/soft_sound.hpp>

#include <optional>
#include <vector>

namespace sectio::measure {

/// Whether `higher`, whose partials are some of those of `lower`, is the note, and what it leaves
/// of `lower` is another, softer sound: a string that rings on an octave, a fifth or a twelfth
/// below. The rest is softer by 13.5 dB in power and in power times frequency; by 10 dB where it
/// lies off its place, as no partial of the same note does, or where the lowest partial of `lower`
/// is missing; by 18 dB in either where it keeps to its place as closely as only partials of one
/// pipe or bowed string do, since such a note may have a weak fundamental. The limits are our
/// choice.
bool is_louder_alone(const PartialSet& higher, const PartialSet& lower, const NoteSpectra& spectra);

/// What sounds below the note, by its lowest partial: peaks that are no partial of the note, 30 dB
/// softer than it or less. `peaks` rise.
std::optional<SoftSound> sound_below(const PartialSet& note, const std::vector<Peak>& peaks);

} // namespace sectio::measure
