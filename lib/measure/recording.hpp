#pragma once
/// @file
/// A recording, listened to from its beginning to its end: its notes and their pitches.

#include <sectio/base/progress.hpp>
#include <sectio/measure/drone_pitch.hpp>
#include <sectio/measure/note_pitch.hpp>
#include <sectio/measure/track_frame.hpp>

#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace sectio::measure {

/// A note, in seconds from the beginning of the recording.
struct RecordedNote {
    double start_s = 0;
    double end_s = 0;
    double level_db = 0; ///< mean square, against full scale
    NotePitch pitch;
    std::vector<SoundingPartial> partials; ///< where they are asked for
};

/// What is heard in a recording. The sound itself is not kept: an hour takes a few megabytes.
struct Recording {
    std::string name;
    int rate = 0; ///< frames a second
    int channels = 1;
    double seconds = 0;
    double peak = 0;      ///< largest value; full scale is 1
    double clipped_s = 0; ///< how long it stays at that value
    std::vector<TrackFrame> track;
    double track_start_s = 0; ///< of the middle of the first frame
    double track_step_s = 0;
    std::vector<DronePitch> drone;   ///< what sounds all through it, rising
    std::vector<RecordedNote> notes; ///< with a pitch
    std::vector<RecordedNote> soft;  ///< so much softer than the notes that they are none
    bool tonal = false;   ///< partials stand out at the loudest place, whether of one note or more
    double gliding_s = 0; ///< between pitches, and within syllables
    std::vector<RecordedNote> refused; ///< without one, each with its trouble
    /// The loudest sound, with its partials, where they are asked for and it is no note.
    std::optional<RecordedNote> unpitched;
    std::vector<std::string> remarks; ///< what a reader should know: clipping, a file cut short
};

/// What is known of a recording before.
struct ListenOptions {
    std::vector<double> drone_hz{}; ///< pitches that sound all through it
    bool find_drone = true;         ///< where none are given
    bool partials = false;          ///< to list those of each note, or of what has no pitch
};

/// Listens to a file (or standard_input, once kept), twice: first for a drone, then for the notes
/// over it. Recordings without any pitch raise an error that says why, unless partials are asked
/// for and some stand out.
/// @throws Error of SoundFile; drone_frequency, recording_silent, recording_without_pitch,
///         recording_notes_too_short, recording_several_notes
Recording listen(const std::filesystem::path& file, const Progress& progress = nullptr,
                 const ListenOptions& options = {});

/// Listens to `samples` (one channel) of `rate` a second, which errors call `name`.
/// @throws Error sound_rate, sound_not_finite, and those above for what is heard
Recording listen(std::span<const float> samples, int rate, const std::string& name,
                 const ListenOptions& options = {});

} // namespace sectio::measure
