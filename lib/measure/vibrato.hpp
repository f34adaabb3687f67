#pragma once
/// @file
/// Private to lib/measure: what the coarse pitch of a note does while it sounds.

#include <sectio/measure/note_pitch.hpp>
#include <sectio/measure/track_frame.hpp>

#include <optional>
#include <vector>

namespace sectio::measure {

/// A pitch that swings about a mean.
struct Vibrato {
    double mean_cents = 0;
    double half_width_cents = 0; ///< of the mean, holds the truth 95 times of 100
    double depth_cents = 0;      ///< the swing to either side
    double rate_hz = 0;
};

/// The swing of 3.5 to 9 Hz that accounts for the values, `step_s` apart: a mean, a drift and a
/// sinusoid, by least squares, so that a part of a period at the end draws the mean nowhere. None
/// where the sinusoid accounts for less than half of what the drift leaves, or swings by less than
/// 2 cents.
std::optional<Vibrato> vibrato_of(const std::vector<double>& cents, double step_s);

/// Whether the values pass from one pitch to another and stay nowhere: a glide, or a syllable.
bool is_passing(const std::vector<double>& cents, double step_s);

/// The mean of a swing, which phases would follow to and fro.
NotePitch swinging_pitch(const Vibrato& vibrato);

/// The pitch `centre`, in cents above 1 Hz, about which `cents` of a track wander with this
/// deviation.
NotePitch moving_pitch(const std::vector<TrackFrame>& track, const std::vector<double>& cents,
                       double centre, double deviation, double step_s);

} // namespace sectio::measure
