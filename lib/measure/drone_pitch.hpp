#pragma once
/// @file
/// A pitch that sounds all through a recording.

namespace sectio::measure {

/// A pitch that sounds all through a recording.
struct DronePitch {
    double hz = 0;
    double half_width_cents = 0; ///< holds the truth 95 times of 100
};

} // namespace sectio::measure
