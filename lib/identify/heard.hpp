#pragma once
/// @file
/// Private to lib/identify: what was heard, made into notes and into degrees.

#include <sectio/identify/pitch_set.hpp>
#include <sectio/identify/progression.hpp>
#include <sectio/scale/melody.hpp>

namespace sectio {

/// True where nothing says that the pitches were written: no staff notation, and neither whole
/// commas nor semitones throughout.
bool is_heard(const Melody& melody);

/// A track of pitches, one each moment, as notes: moments that stay within a semitone are one note
/// at their median, moments alone are none. What is no track (its notes last differently, or are
/// few) stays as it is.
Melody notes_of_track(const Melody& melody);

/// The degrees that were heard: the peaks of the histogram, each at the mean of the notes about it
/// to a tenth of a cent, above `reference`, and weighted by the time about it.
/// @throws Error one_pitch
PitchSet heard_degrees(const Progression& progression, const Melody& notes,
                       const Interval& reference);

} // namespace sectio
