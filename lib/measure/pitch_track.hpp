#pragma once
/// @file
/// Pitch tracks that were made elsewhere: tables of times and frequencies.

#include <sectio/measure/recording.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace sectio::measure {

/// A frequency every `step_s` seconds; 0 where there is no pitch.
struct PitchTrack {
    std::vector<float> hz;
    double step_s = 0.01;
};

/// Reads a table: times in seconds and frequencies from 1 to 20000 Hz, 0 for none, with or without
/// a header; or frequencies alone, one each `step_s` seconds. Tabs, semicolons, commas or blanks
/// stand between; a comma that does not is the decimal sign. Further columns are left alone.
/// @throws Error track_value, track_order, with their line; track_empty, sound_too_long
PitchTrack read_pitch_track(std::string_view text, const std::string& name, double step_s);

/// The track as a recording whose sound is not known: notes, each with the median of its values and
/// an uncertainty by their spread.
/// @throws Error recording_notes_too_short
Recording recording_of(const PitchTrack& track, const std::string& name);

} // namespace sectio::measure
