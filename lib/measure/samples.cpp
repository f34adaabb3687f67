#include <sectio/base/argument.hpp>
#include <sectio/measure/exact_figures.hpp>
#include <sectio/measure/heard_pitches.hpp>
#include <sectio/measure/messages.hpp>
#include <sectio/measure/samples.hpp>
#include <sectio/measure/statistics.hpp>
#include <sectio/page/numbers.hpp>

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

/// The key from which a pitch is told: what lies so little below a key that its rounded fraction
/// would be a whole semitone is told as that key.
int told_key(const Pitch& pitch, const Interval& half_width, const Pitch& a4) {
    constexpr int fraction_digits = 2;
    const int digits = borne_digits(half_width, fraction_digits);
    const Interval half_digit = Interval::from_cents(Rational(1, 2 * power_of_ten(digits)));
    const int key = key_below(pitch, a4);
    return pitch_of_key(key + 1, a4) - pitch <= half_digit ? key + 1 : key;
}

/// What lies less than half a hundredth of a cent below a key is stored as that key: less than can
/// be heard, and a sampler that knows no fractions is then a semitone nearer.
SamplerPitch checked(const Pitch& stored, const Pitch& a4) {
    const Interval negligible = Interval::from_cents(Rational(1, 200));
    const int below = key_below(stored, a4);
    const bool at_next = pitch_of_key(below + 1, a4) - stored < negligible;
    const int key = at_next ? below + 1 : below;
    if (key < 0 || key > highest_key)
        throw error(message::key_out_of_range, "", {}, stored.hertz(1));
    if (at_next)
        return {static_cast<std::uint32_t>(key), 0};
    // Within 100 cents a double's error of 1e-13 cents is a five-hundredth of 2^-32 semitones; what
    // is negligible is far more than 2^-32, so that the fraction never reaches 2^32.
    const double part = (stored - pitch_of_key(key, a4)).estimate().value * 12;
    return {static_cast<std::uint32_t>(key),
            static_cast<std::uint32_t>(std::llround(std::ldexp(part, 32)))};
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
                   && std::abs(cents_above(other.pitch.hz, note.pitch.hz)) > other_note_cents;
        });
}

/// How far a pitch lies beyond the ends of a scale that does not repeat, where that is more than
/// half the way to the next key.
std::optional<Interval> outside(const NearestDegree& nearest, const TunedScale& scale) {
    const auto& degrees = scale.scale().degrees;
    const bool below = nearest.at.degree == 0 && nearest.rest < Interval();
    const bool above = nearest.at.degree + 1 == degrees.size() && nearest.rest > Interval();
    const bool far = absolute(nearest.rest) > Interval::from_cents(50);
    return !scale.scale().period && far && (below || above) ? std::optional(nearest.rest)
                                                            : std::nullopt;
}

void find_degree(Sample& sample, const TunedScale& scale) {
    const NearestDegree nearest = scale.nearest(sample.pitch);
    if (const auto beyond = outside(nearest, scale)) {
        sample.remarks.push_back(fmt::format(
            "Lies {} cents {} the scale, which does not repeat: it has no degree there.",
            absolute(*beyond).cents(1), *beyond < Interval() ? "below" : "above"));
        return;
    }
    sample.degree = nearest;
    sample.to_degree = -nearest.rest;
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
    return row_for(names, set);
}

Sample sample_of(const Recording& recording, const Pitch& a4, const TunedScale* scale) {
    if (recording.notes.empty())
        throw error(message::nothing_heard, "", {recording.name});
    check_notes(recording);
    const RecordedNote& note = longest_note(recording);
    Sample sample;
    sample.file = recording.name;
    sample.pitch = pitch_of(note.pitch.hz);
    sample.half_width = half_width_of(note.pitch.half_width_cents);
    sample.key = told_key(sample.pitch, sample.half_width, a4);
    sample.above_key = sample.pitch - pitch_of_key(sample.key, a4);
    sample.remarks = recording.remarks;
    if (has_other_note(recording, note))
        sample.remarks.push_back("The file holds several notes; the longest one counts.");
    if (scale)
        find_degree(sample, *scale);
    return sample;
}

std::optional<SamplerPitch> stored_pitch(const Sample& sample, SampleSet set,
                                         const TunedScale* scale, const Pitch& a4) {
    switch (set) {
    case SampleSet::natural:
        return checked(pitch_of_key(nearest_key(sample.pitch, a4).key, a4), a4);
    case SampleSet::tempered:
        return checked(sample.pitch, a4);
    case SampleSet::scale:
        break;
    }
    if (!sample.degree)
        return std::nullopt;
    check_argument(set == SampleSet::scale && scale != nullptr, "the set of a sample",
                   "one that there is, with its scale");
    return checked(pitch_of_key(sounding_key(sample, *scale), a4) + sample.degree->rest, a4);
}

int sounding_key(const Sample& sample, const TunedScale& scale) {
    check_argument(sample.degree.has_value(), "a sample", "one that has a degree");
    return scale.tuned(sample.degree->at).key;
}

bool is_without_note(const Error& error) {
    const Message known[]{message::recording_silent, message::recording_without_pitch,
                          message::recording_notes_too_short, message::recording_several_notes};
    return std::find(std::begin(known), std::end(known), error.id()) != std::end(known);
}

std::filesystem::path copy_of(const Sample& sample, const std::filesystem::path& folder) {
    return folder / std::filesystem::path(sample.file).filename();
}

namespace {

void write_sample(const Sample& sample, const SamplerPitch& pitch,
                  const std::filesystem::path& folder) {
    std::ifstream file(sample.file, std::ios::binary);
    const WaveChunks wave = read_wave_chunks(file, sample.file);
    make_folder(folder);
    write_whole(copy_of(sample, folder),
                [&](const Sink& sink) { copy_with_pitch(file, wave, pitch, sample.file, sink); });
}

} // namespace

std::vector<RefusedSample> write_samples(const std::vector<Sample>& samples, SampleSet set,
                                         const TunedScale* scale, const Pitch& a4,
                                         const std::filesystem::path& folder) {
    check_names(samples);
    std::vector<RefusedSample> refused;
    for (const Sample& sample : samples)
        try {
            if (const auto pitch = stored_pitch(sample, set, scale, a4))
                write_sample(sample, *pitch, folder);
        } catch (const Error& e) {
            refused.push_back({sample.file, e});
        }
    return refused;
}

} // namespace sectio::measure
