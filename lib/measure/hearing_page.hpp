#pragma once
/// @file
/// Pages of what was measured in recordings, and the scale made of it.

#include <sectio/measure/heard_pitches.hpp>
#include <sectio/measure/samples.hpp>
#include <sectio/page/page.hpp>
#include <sectio/scale/pitch_list.hpp>

#include <optional>
#include <string>
#include <vector>

namespace sectio::measure {

/// The pitches, the notes in time, the tonic, and what a reader should know. CSV of it holds the
/// notes in time, as `sectio identify` reads a melody. JSON keeps the `period` that the pitches are
/// to be brought into.
page::Page hearing_page(const Hearing& hearing, const Pitch& a4,
                        const std::optional<Interval>& period = std::nullopt);

/// The notes, or the loudest sound where that has no pitch, and the partials of each, as
/// ListenOptions::partials has them listed. CSV of it holds the partials.
page::Page partials_page(const std::vector<Recording>& recordings, const Pitch& a4);

/// The pitches above the tonic; those of different periods nearer than 30 cents are one degree.
PitchList heard_list(const Hearing& hearing);

/// The pitches as a scale on the tonic, to a millionth of a cent; without `period` a set that does
/// not repeat. `reference` is the pitch that notes are named by, as written.
Scale scale_of(const Hearing& hearing, const std::optional<Interval>& period,
               const std::optional<TuningReference>& reference = std::nullopt);

/// The samples, and what each of `sets` stores.
page::Page samples_page(const std::vector<Sample>& samples,
                        const std::vector<RefusedSample>& refused,
                        const std::vector<SampleSet>& sets, const TunedScale* scale,
                        const Pitch& a4);

/// What identification reads: the notes of a melody in time, or the pitches of a scale.
Melody melody_of(const Hearing& hearing);
/// The same of one recording. @throws Error nothing_heard
Melody melody_of(const Recording& recording);

} // namespace sectio::measure
