#pragma once
/// @file
/// Recorded notes for a sampler: what to store in the sampler chunk of each.

#include <sectio/base/error.hpp>
#include <sectio/measure/recording.hpp>
#include <sectio/measure/wave_chunks.hpp>
#include <sectio/scale/tuned_scale.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sectio::measure {

/// How the player wants the samples to sound on a keyboard of 12 equal steps.
enum class SampleSet {
    natural,  ///< as recorded: the nearest key, no fraction
    tempered, ///< brought to 12 equal steps: the pitch itself is stored
    scale,    ///< brought to the nearest degree of a scale, on the key nearest to that
};

/// @throws Error sample_set_unknown
SampleSet parse_sample_set(std::string_view text, const Place& place = {});
std::string_view text(SampleSet set);

/// A recorded note that is a sample.
struct Sample {
    std::string file;
    Pitch pitch = Pitch::concert_a();
    Interval half_width; ///< holds the truth 95 times of 100
    int key = 0;         ///< as MIDI numbers them; at or below the pitch as it is told
    Interval above_key;  ///< from `key` up: told as 0 or more and less than 100 cents
    std::optional<NearestDegree> degree; ///< none without a scale and outside one that ends
    Interval to_degree;                  ///< degree minus pitch
    std::vector<std::string> remarks;
};

/// The longest note of a recording.
/// @throws Error nothing_heard, note_not_measured, key_out_of_range
Sample sample_of(const Recording& recording, const Pitch& a4, const TunedScale* scale);

/// What the chunk of this sample must say. A player sounds key k at its pitch in 12 equal steps
/// times recorded pitch over stored pitch; so for a degree d on its nearest key k the stored pitch
/// is k + (recorded - d). Nothing for a sample outside the scale where `set` is that.
/// Precondition: a scale where `set` is that.
/// @throws Error key_out_of_range
std::optional<SamplerPitch> stored_pitch(const Sample& sample, SampleSet set,
                                         const TunedScale* scale, const Pitch& a4);

/// The key on which the degree of a sample is played: the nearest to the degree. The chunk of the
/// set `scale` names this key or the one below. Precondition: the sample has a degree.
int sounding_key(const Sample& sample, const TunedScale& scale);

/// A file that could not be measured or copied, and why.
struct RefusedSample {
    std::string file;
    Error error;
};

/// True where the file was read, and holds no note that a sample could be of.
bool is_without_note(const Error& error);

/// Where the copy of a sample goes.
std::filesystem::path copy_of(const Sample& sample, const std::filesystem::path& folder);

/// Writes copies of the samples into `folder`, which is made where it is missing and one can be
/// written. Those that are no WAVE files, damaged, out of the range of keys or cannot be written
/// are returned; the others are there.
/// @throws Error samples_same_name, before anything is written
std::vector<RefusedSample> write_samples(const std::vector<Sample>& samples, SampleSet set,
                                         const TunedScale* scale, const Pitch& a4,
                                         const std::filesystem::path& folder);

} // namespace sectio::measure
