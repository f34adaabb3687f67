#include <sectio/measure/exact_figures.hpp>
#include <sectio/measure/messages.hpp>
#include <sectio/measure/samples.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <set>

namespace sectio::measure {

namespace {

constexpr int highest_key = 127;
/// Another note of the file this far off, and not this much softer, is worth a word.
constexpr double other_note_cents = 50, other_note_db = 20;

/// The key at or below a pitch.
int key_below(const Pitch& pitch, const Pitch& a4) {
    const KeyedPitch nearest = nearest_key(pitch, a4);
    return nearest.deviation < Interval() ? nearest.key - 1 : nearest.key;
}

SamplerPitch checked(const Pitch& stored, const Pitch& a4) {
    const int key = key_below(stored, a4);
    if (key < 0 || key > highest_key)
        throw error(message::key_out_of_range, "", {}, stored.hertz(1));
    // Within 100 cents a double's error of 1e-13 cents is a five-hundredth of 2^-32 semitones.
    const double part = (stored - pitch_of_key(key, a4)).estimate().value * 12;
    const auto fraction = static_cast<std::uint64_t>(std::llround(std::ldexp(part, 32)));
    return {static_cast<std::uint32_t>(key),
            static_cast<std::uint32_t>(std::min<std::uint64_t>(fraction, 0xFFFFFFFF))};
}

const RecordedNote& longest_note(const Recording& recording) {
    return *std::max_element(recording.notes.begin(), recording.notes.end(),
                             [](const RecordedNote& a, const RecordedNote& b) {
                                 return a.end_s - a.start_s < b.end_s - b.start_s;
                             });
}

bool has_other_note(const Recording& recording, const RecordedNote& note) {
    return std::any_of(
        recording.notes.begin(), recording.notes.end(), [&](const RecordedNote& other) {
            return other.level_db > note.level_db - other_note_db
                   && std::abs(1200 * std::log2(other.pitch.hz / note.pitch.hz)) > other_note_cents;
        });
}

void check_names(const std::vector<Sample>& samples) {
    std::set<std::filesystem::path> names;
    for (const Sample& sample : samples)
        if (!names.insert(std::filesystem::path(sample.file).filename()).second)
            throw error(message::samples_same_name, sample.file, {});
}

} // namespace

SampleSet parse_sample_set(std::string_view text, const Place& place) {
    for (const SampleSet set : {SampleSet::natural, SampleSet::tempered, SampleSet::scale})
        if (measure::text(set) == text)
            return set;
    throw error(message::sample_set_unknown, text, place);
}

std::string_view text(SampleSet set) {
    constexpr std::string_view names[]{"natural", "tempered", "scale"};
    return names[static_cast<std::size_t>(set)];
}

Sample sample_of(const Recording& recording, const Pitch& a4, const TunedScale* scale) {
    const RecordedNote& note = longest_note(recording);
    Sample sample;
    sample.file = recording.name;
    sample.pitch = pitch_of(note.pitch.hz);
    sample.half_width = half_width_of(note.pitch.half_width_cents);
    sample.key = key_below(sample.pitch, a4);
    sample.above_key = sample.pitch - pitch_of_key(sample.key, a4);
    sample.remarks = recording.remarks;
    if (has_other_note(recording, note))
        sample.remarks.push_back("The file holds several notes; the longest one counts.");
    if (scale) {
        sample.degree = scale->nearest(sample.pitch);
        sample.to_degree = -sample.degree->rest;
    }
    return sample;
}

SamplerPitch stored_pitch(const Sample& sample, SampleSet set, const TunedScale* scale,
                          const Pitch& a4) {
    switch (set) {
    case SampleSet::natural:
        return checked(pitch_of_key(nearest_key(sample.pitch, a4).key, a4), a4);
    case SampleSet::tempered:
        return checked(sample.pitch, a4);
    case SampleSet::scale:
        break;
    }
    const int key = scale->tuned(sample.degree->at).key;
    return checked(pitch_of_key(key, a4) + sample.degree->rest, a4);
}

void write_samples(const std::vector<Sample>& samples, SampleSet set, const TunedScale* scale,
                   const Pitch& a4, const std::filesystem::path& folder) {
    check_names(samples);
    std::filesystem::create_directories(folder);
    for (const Sample& sample : samples) {
        std::ifstream file(sample.file, std::ios::binary);
        const WaveChunks wave = read_wave_chunks(file, sample.file);
        const SamplerPitch pitch = stored_pitch(sample, set, scale, a4);
        write_whole(
            folder / std::filesystem::path(sample.file).filename(),
            [&](const Sink& sink) { copy_with_pitch(file, wave, pitch, sample.file, sink); },
            sample.file);
    }
}

} // namespace sectio::measure
