#include <sectio/base/limits.hpp>
#include <sectio/identify/cents.hpp>
#include <sectio/identify/identify.hpp>
#include <sectio/identify/messages.hpp>
#include <sectio/identify/pitch_set.hpp>
#include <sectio/scale/messages.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace sectio {

namespace {

double variance_of(const std::optional<Interval>& half_width) {
    const double width = half_width ? cents_of(*half_width) : 0;
    return width * width / 3;
}

/// Adds a pitch that lies not below the last one.
void add(PitchSet& set, const Interval& interval, const PitchOfSet& pitch) {
    if (!set.intervals.empty() && set.intervals.back() == interval) {
        set.pitches.back().weight += pitch.weight;
        set.pitches.back().variance = std::max(set.pitches.back().variance, pitch.variance);
        return;
    }
    set.intervals.push_back(interval);
    set.pitches.push_back(pitch);
}

/// Of more pitches than this those that lie within a cent of one another are one: no spread of
/// practice tells them apart, and the time stays bounded.
constexpr std::size_t most_apart = 2000;
constexpr double one_cent = 1;

/// Each group is at its first pitch, with the weight of all.
void join_neighbours(PitchSet& set) {
    PitchSet joined;
    joined.reference = set.reference;
    for (std::size_t i = 0; i < set.pitches.size(); ++i) {
        const PitchOfSet& pitch = set.pitches[i];
        if (!joined.pitches.empty() && pitch.cents - joined.pitches.back().cents < one_cent) {
            joined.pitches.back().weight += pitch.weight;
            joined.pitches.back().variance =
                std::max(joined.pitches.back().variance, pitch.variance);
            continue;
        }
        joined.intervals.push_back(set.intervals[i]);
        joined.pitches.push_back(pitch);
    }
    set = std::move(joined);
}

void normalise(std::vector<PitchOfSet>& pitches) {
    double total = 0;
    for (const PitchOfSet& pitch : pitches)
        total += pitch.weight;
    for (PitchOfSet& pitch : pitches)
        pitch.weight *= static_cast<double>(pitches.size()) / total;
}

} // namespace

Interval reference_of(const Melody& melody) {
    if (melody.notes.empty())
        throw error(message::no_pitches, "", {});
    const bool has_unison =
        std::any_of(melody.notes.begin(), melody.notes.end(),
                    [](const WeightedPitch& n) { return n.interval.is_unison(); });
    return has_unison ? Interval() : melody.notes.front().interval;
}

PitchSet pitch_set(const Melody& melody, const std::optional<Interval>& uncertainty) {
    PitchSet set;
    set.reference = reference_of(melody);
    std::vector<Interval> above;
    std::vector<double> cents;
    for (const WeightedPitch& note : melody.notes) {
        above.push_back(note.interval - set.reference);
        cents.push_back(cents_of(above.back()));
    }
    std::vector<std::size_t> order(above.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto [low, high] = std::minmax_element(above.begin(), above.end());
    if (*high - *low > Integer(limits::identified_octaves) * Interval::octave())
        throw error(message::pitches_too_far, "", {}, limits::identified_octaves);
    // The estimates err by less than 1e-9 cents here, so only neighbours closer than `doubtful` are
    // asked for their exact order; equal ones come to lie together.
    constexpr double doubtful = 1e-6;
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return std::abs(cents[a] - cents[b]) > doubtful ? cents[a] < cents[b] : above[a] < above[b];
    });
    for (const std::size_t i : order) {
        const WeightedPitch& note = melody.notes[i];
        add(set, above[i],
            {cents[i], variance_of(note.uncertainty ? note.uncertainty : uncertainty),
             weight_of(note)});
    }
    if (set.pitches.size() > most_apart)
        join_neighbours(set);
    if (set.pitches.size() < 2)
        throw error(message::one_pitch, "", {});
    normalise(set.pitches);
    return set;
}

} // namespace sectio
