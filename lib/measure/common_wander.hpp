#pragma once
/// @file
/// Private to lib/measure: how the partials of a note wander together, as those of a bow or a voice
/// do.

#include <sectio/measure/note_spectra.hpp>
#include <sectio/measure/settling.hpp>

#include <optional>
#include <vector>

namespace sectio::measure {

/// A pitch that wanders.
struct CommonWander {
    std::vector<double> cents;   ///< from each frame to the next, about the mean; 0 outside
    double deviation_cents = 0;  ///< standard deviation, beyond noise
    double half_width_cents = 0; ///< of the mean over the note, holds the truth 95 times of 100
};

/// What the partials do alike from frame to frame within [first, last): noise, drones and echoes
/// draw each of them elsewhere, so that only what two halves of them have in common is of the
/// pitch. None where the halves differ, or where noise makes as much of it.
std::optional<CommonWander> common_wander(const std::vector<Followed>& followed,
                                          const NoteSpectra& spectra, std::size_t first,
                                          std::size_t last);

/// Leaves the partials at the mean of their common pitch.
void turn_back(std::vector<Followed>& followed, const CommonWander& wander);

} // namespace sectio::measure
