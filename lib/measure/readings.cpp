#include <sectio/base/limits.hpp>
#include <sectio/interval/real.hpp>
#include <sectio/measure/messages.hpp>
#include <sectio/measure/readings.hpp>
#include <sectio/scale/half_width.hpp>
#include <sectio/scale/messages.hpp>

#include <algorithm>
#include <cmath>

namespace sectio::measure {

namespace {

using OfOneNote = std::vector<Reading>;

double cents_of(const Interval& interval) {
    return interval.estimate().value * 1200;
}

/// A figure of the statistics as a half width: rounded up to 1e-4 cents.
Rational rounded_up(double cents) {
    return {Integer(static_cast<long>(std::ceil(cents * 1e4))), 10'000};
}

/// Exact; of very many readings only to a millionth of a cent, since different frequencies have no
/// factors in common and their exact mean would have them all.
Pitch mean_pitch(const OfOneNote& group) {
    constexpr std::size_t exact_up_to = 100;
    const Pitch& first = group.front().pitch;
    std::vector<Interval> above;
    for (const Reading& reading : group) {
        const Interval interval = reading.pitch - first;
        above.push_back(group.size() <= exact_up_to
                            ? interval
                            : Interval::from_cents(size_in_cents(interval).rounded(6)));
    }
    return first + sum(std::move(above)) * Rational(1, Integer(group.size()));
}

/// Σ (reading − mean)², in square cents.
double square_deviations(const OfOneNote& group, const Pitch& mean) {
    double squares = 0;
    for (const Reading& reading : group)
        squares += std::pow(cents_of(reading.pitch - mean), 2);
    return squares;
}

Interval widest(const OfOneNote& group) {
    Interval width;
    for (const Reading& reading : group)
        width = std::max(width, reading.half_width);
    return width;
}

/// Readings of one label, wherever they stand; those without one by their height.
std::vector<OfOneNote> grouped(std::vector<Reading> readings, const Interval& apart) {
    std::stable_sort(readings.begin(), readings.end(), [](const Reading& a, const Reading& b) {
        return a.label != b.label ? a.label < b.label : a.pitch < b.pitch;
    });
    std::vector<OfOneNote> groups;
    for (Reading& reading : readings) {
        const bool same =
            !groups.empty() && groups.back().back().label == reading.label
            && (!reading.label.empty() || reading.pitch - groups.back().back().pitch < apart);
        if (!same)
            groups.emplace_back();
        groups.back().push_back(std::move(reading));
    }
    return groups;
}

/// What the readings of all notes together say of how they scatter.
struct Scatter {
    double squares = 0;
    std::size_t freedom = 0;

    /// Half width of the mean of `count` readings, in cents; 0 where nothing was read twice.
    double of_mean(std::size_t count) const {
        if (freedom == 0)
            return 0;
        const Rational t = coverage_factor(freedom);
        const double s = std::sqrt(squares / static_cast<double>(freedom));
        return boost::rational_cast<double>(t) * s / std::sqrt(static_cast<double>(count));
    }
};

ReadNote note_of(const OfOneNote& group) {
    ReadNote note{group.front().label, mean_pitch(group), {}, group.size(), Basis::tuner, {},
                  group.front().note};
    for (const Reading& reading : group)
        note.string = note.string.or_as(reading.string);
    if (std::any_of(group.begin(), group.end(),
                    [&](const Reading& reading) { return reading.note != note.note; }))
        note.note.reset();
    if (group.size() > 1)
        note.spread = Interval::from_cents(rounded_up(std::sqrt(
            square_deviations(group, note.pitch) / static_cast<double>(group.size() - 1))));
    return note;
}

} // namespace

std::vector<ReadNote> notes_of(std::vector<Reading> readings, const Interval& apart) {
    if (readings.empty())
        throw error(message::no_readings, "", {});
    if (readings.size() > limits::identified_pitches)
        throw error(message::too_many_pitches, "", {}, limits::identified_pitches);
    const std::vector<OfOneNote> groups = grouped(std::move(readings), apart);
    std::vector<ReadNote> notes;
    Scatter scatter;
    for (const OfOneNote& group : groups) {
        notes.push_back(note_of(group));
        scatter.squares += square_deviations(group, notes.back().pitch);
        scatter.freedom += group.size() - 1;
    }
    for (std::size_t i = 0; i < groups.size(); ++i) {
        const double own = cents_of(widest(groups[i])), of_mean = scatter.of_mean(groups[i].size());
        notes[i].uncertainty = Interval::from_cents(rounded_up(std::hypot(own, of_mean)));
        notes[i].basis = of_mean > own ? Basis::scatter : Basis::tuner;
    }
    std::stable_sort(notes.begin(), notes.end(),
                     [](const ReadNote& a, const ReadNote& b) { return a.pitch < b.pitch; });
    return notes;
}

} // namespace sectio::measure
