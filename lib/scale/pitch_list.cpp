#include <sectio/base/limits.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/pitch_list.hpp>

#include <algorithm>

namespace sectio {

namespace {

std::size_t index_of_tonic(const std::vector<ListedPitch>& pitches) {
    const auto unison = std::find_if(pitches.begin(), pitches.end(), [](const ListedPitch& p) {
        return p.above.figure.is_unison();
    });
    const auto lowest = std::min_element(
        pitches.begin(), pitches.end(),
        [](const ListedPitch& a, const ListedPitch& b) { return a.above.figure < b.above.figure; });
    return static_cast<std::size_t>((unison != pitches.end() ? unison : lowest) - pitches.begin());
}

std::optional<Interval> together(const std::optional<Interval>& a,
                                 const std::optional<Interval>& b) {
    if (!a || !b)
        return a ? a : b;
    return *a + *b;
}

/// The pitch as a degree above the tonic.
Degree degree_of(const ListedPitch& pitch, const ListedPitch& tonic, const PitchList& list) {
    Degree degree;
    degree.interval = pitch.above.figure - tonic.above.figure;
    if (list.period)
        degree.interval = reduced(degree.interval, *list.period);
    const bool as_written = degree.interval == pitch.above.figure && !list.zero;
    degree.written = as_written ? pitch.written : to_expression(degree.interval);
    degree.name = pitch.label;
    degree.note = pitch.note;
    degree.uncertainty = degree.interval.is_unison()
                             ? pitch.above.half_width
                             : together(pitch.above.half_width, tonic.above.half_width);
    return degree;
}

/// Rising, equal ones once: the first of them stays.
void sort(std::vector<Degree>& degrees) {
    std::stable_sort(degrees.begin(), degrees.end(),
                     [](const Degree& a, const Degree& b) { return a.interval < b.interval; });
    degrees.erase(
        std::unique(degrees.begin(), degrees.end(),
                    [](const Degree& a, const Degree& b) { return a.interval == b.interval; }),
        degrees.end());
}

} // namespace

Scale to_scale(const PitchList& list, std::optional<std::size_t> tonic) {
    if (list.pitches.empty())
        throw error(message::no_pitches, "", {});
    const ListedPitch& first = list.pitches.at(tonic.value_or(index_of_tonic(list.pitches)));
    Scale scale;
    scale.name = list.name;
    scale.source = list.source;
    scale.reference = list.reference;
    scale.tonic = list.zero ? std::optional(first.written) : list.tonic;
    scale.period = list.period;
    scale.remarks = list.remarks;
    for (const ListedPitch& pitch : list.pitches)
        scale.degrees.push_back(degree_of(pitch, first, list));
    sort(scale.degrees);
    complete(scale, {}, DegreeOrder::rising);
    return scale;
}

Melody to_melody(const PitchList& list) {
    Melody melody;
    melody.name = list.name;
    melody.zero = list.counted_from;
    melody.sounding_zero = list.zero;
    melody.in_time = list.in_time;
    for (const ListedPitch& pitch : list.pitches)
        melody.notes.push_back(
            {pitch.above.figure, pitch.weight, pitch.ends_phrase, pitch.above.half_width});
    return melody;
}

} // namespace sectio
