#pragma once
/// @file
/// What rings on beside a note.

namespace sectio::measure {

/// A sound that is softer than the note it sounds with.
struct SoftSound {
    double hz = 0;
    double softer_db = 0;
};

} // namespace sectio::measure
