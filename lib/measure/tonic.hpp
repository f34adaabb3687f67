#pragma once
/// @file
/// Private to lib/measure: the likely tonic of a melody that was heard.

#include <sectio/measure/pitch_histogram.hpp>

#include <optional>
#include <vector>

namespace sectio::measure {

/// A note of a melody, in the order of time.
struct MelodyNote {
    double cents = 0; ///< above 1 Hz
    double start_s = 0;
    double seconds = 0;
};

/// Where a melody likely has its tonic.
struct LikelyTonic {
    double cents = 0;       ///< above 1 Hz
    double probability = 0; ///< against the other peaks of the histogram; a ranking, not calibrated
};

/// Judges each peak of the folded histogram by how long the melody stays on it, by how much of the
/// last notes lies on it, and by the notes before rests. A melody ends on its tonic; in the makam
/// tradition without exception (common teaching, no source).
/// None where there is no note.
std::optional<LikelyTonic> likely_tonic(const std::vector<MelodyNote>& notes);

/// The notes of a pitch track: a value a frame in Hz, 0 where there is none.
std::vector<MelodyNote> notes_of_track(const std::vector<float>& hz, double step_s);

} // namespace sectio::measure
