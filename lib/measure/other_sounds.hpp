#pragma once
/// @file
/// Private to lib/measure: what sounds beside a note, and which of the note's peaks are of it.

#include <sectio/measure/drone.hpp>
#include <sectio/measure/note_spectra.hpp>
#include <sectio/measure/partials.hpp>

#include <cstddef>
#include <vector>

namespace sectio::measure {

/// Leaves out the peaks that are the drone's, and gives their frequencies; of those that lie on one
/// and are stronger, says how much is hidden in them.
std::vector<double> tell_drone_apart(std::vector<Peak>& peaks, const NoteSpectra& spectra,
                                     const Drone& drone);

/// Leaves out the peaks that stood before the note as well, where `old` is the power of each bin in
/// a window before it and more than `most_hidden` of their amplitude counts, adds their frequencies
/// to `covered` and says how many they are; of the others, says how much is hidden in them. What
/// goes on through a change is heard as the old sound, and the rest as the new one (A. S. Bregman,
/// "Auditory Scene Analysis", 1990; from memory).
std::size_t tell_old_apart(std::vector<Peak>& peaks, const NoteSpectra& spectra,
                           const std::vector<float>& old, double most_hidden,
                           std::vector<double>& covered);

/// Takes from the power that is foreign to a set what lies on the series of the drone's pitches,
/// where the set does not itself: a string that is struck again has partials that do not stand.
void leave_to_drone(PartialSet& set, const std::vector<Peak>& peaks, const Drone& drone);

/// Whether a set has a pitch twice, three times … that of another.
bool is_multiple_of(const PartialSet& set, const PartialSet& other);

} // namespace sectio::measure
