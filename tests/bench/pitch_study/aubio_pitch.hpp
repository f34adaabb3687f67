#pragma once
/// @file
/// The pitch methods of aubio (aubio.org), to compare with.

#include <span>
#include <vector>

namespace pitch_study {

/// The pitch of one note in `sound`, 44.1 kHz, by a method of aubio: the median of the frames after
/// the first, whose memory is not full yet; 0 where it has none.
double median_by_aubio(const char* method, std::span<const float> sound);

/// Where `part` of the values lie below; 0 of none.
double quantile(std::vector<double> values, double part);

} // namespace pitch_study
