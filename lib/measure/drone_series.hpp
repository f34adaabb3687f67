#pragma once
/// @file
/// Private to lib/measure: the pitches of the strings or pipes of a drone among what stands.

#include <sectio/measure/drone_pitch.hpp>
#include <sectio/measure/partials.hpp>

#include <vector>

namespace sectio::measure {

bool on_series(double hz, double pitch);

/// The pitch of the lowest peak, and of the lowest that is no multiple of it, and so on: those that
/// are strong and have multiples of their own.
std::vector<double> pitches_in(std::vector<Peak> peaks);

/// The pitches asked for, each where a peak stands near it.
std::vector<double> found_near(const std::vector<Peak>& peaks, const std::vector<double>& asked);

/// The peaks of one pitch of several that no other pitch has too, since two strings pull a common
/// peak to between them; where it has none of its own, all.
std::vector<Peak> own_peaks(double pitch, const std::vector<double>& pitches,
                            const std::vector<Peak>& peaks);

/// The mean of what the partials say, which are all known to the same part of a bin, so that the
/// n-th says it n times as well; its error by their scatter, and by a tenth of a bin at the least.
DronePitch measured_pitch(const std::vector<Peak>& peaks, double about, double window_s);

} // namespace sectio::measure
