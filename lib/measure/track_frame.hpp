#pragma once
/// @file
/// A recording's pitch at one moment.

namespace sectio::measure {

/// What was decided of one frame.
struct TrackFrame {
    float hz = 0; ///< 0 where there is no pitch
    float clarity = 0;
    float level = 0;
};

} // namespace sectio::measure
