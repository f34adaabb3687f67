#include <sectio/measure/note_sieve.hpp>
#include <sectio/measure/statistics.hpp>
#include <sectio/measure/vibrato.hpp>

#include <algorithm>
#include <cmath>

namespace sectio::measure {

namespace {

/// A note's end may break up into pieces: they follow at once and lie so far below its level.
constexpr double tail_gap_s = 0.5, tail_db = 10;
/// A new note without an attack lies further off than this.
constexpr double new_note_cents = 15;

/// Of each stretch of this length, one each step.
std::vector<double> powers_of(std::span<const float> sound, std::size_t length, std::size_t step) {
    std::vector<double> sums{1e-14}, powers;
    for (const float sample : sound)
        sums.push_back(sums.back() + std::pow(static_cast<double>(sample), 2));
    for (std::size_t at = 0; at + length <= sound.size(); at += step)
        powers.push_back(1e-14 + sums[at + length] - sums[at]);
    return powers;
}

/// How long an amplitude has grown by a power of the time, from nothing, that doubles within
/// `doubled` and again within `again` (0: not known): one between the first and the second power.
double grown_for(std::ptrdiff_t doubled, std::ptrdiff_t again) {
    constexpr double linear = 2, square = 1.41421;
    if (doubled == 0)
        return 0;
    const double ratio = static_cast<double>(again) / static_cast<double>(doubled);
    return static_cast<double>(doubled)
           / ((again > 0 ? std::clamp(ratio, square, linear) : linear) - 1);
}

} // namespace

std::vector<double> voiced_cents(const NoteSpan& span) {
    const bool ends = span.last > span.first + span.track.size();
    std::vector<double> cents;
    const std::size_t first = ends && span.track.size() == 1 ? 0 : 1;
    for (std::size_t i = first; i + (ends ? 0 : 1) < span.track.size(); ++i)
        if (span.track[i].hz > 0)
            cents.push_back(cents_above(static_cast<double>(span.track[i].hz), 1));
    return cents;
}

NotePitch in_octave_of(const NotePitch& by_partials, NotePitch by_periods) {
    constexpr double near_cents = 50;
    for (const double times : {0.5, 2.0})
        if (by_partials.trouble == NoteTrouble::none && by_partials.hz > 0
            && std::abs(cents_above(times * by_periods.hz, by_partials.hz)) < near_cents)
            by_periods.hz *= times;
    return by_periods;
}

bool is_periodic(const std::vector<TrackFrame>& track, double centre) {
    constexpr double near_cents = 35, least_part = 0.8, least_clarity = 0.97;
    std::vector<double> clarity;
    for (const TrackFrame& frame : track)
        if (frame.hz > 0
            && std::abs(cents_above(static_cast<double>(frame.hz), 1) - centre) < near_cents)
            clarity.push_back(static_cast<double>(frame.clarity));
    return static_cast<double>(clarity.size()) > least_part * static_cast<double>(track.size())
           && median(clarity) > least_clarity;
}

bool keeps_pitch(const std::vector<TrackFrame>& track, double step_s) {
    constexpr float least_clarity = 0.97F, least_clarity_beside = 0.85F;
    constexpr double most_cents_a_second = 110;
    const auto stays = [&](const TrackFrame& a, const TrackFrame& b) {
        return std::max(a.clarity, b.clarity) > least_clarity
               && std::min(a.clarity, b.clarity) > least_clarity_beside
               && std::abs(cents_above(static_cast<double>(a.hz), static_cast<double>(b.hz)))
                      < most_cents_a_second * step_s;
    };
    return std::adjacent_find(track.begin(), track.end(), stays) != track.end();
}

bool is_steady(const NotePitch& by_partials) {
    constexpr double steady_cents = 1;
    return by_partials.trouble == NoteTrouble::none && by_partials.partials > 0
           && by_partials.wander_cents < steady_cents
           && by_partials.half_width_cents < steady_cents;
}

double cents_apart(const RecordedNote& a, const RecordedNote& b) {
    return std::abs(cents_above(a.pitch.hz, b.pitch.hz));
}

void join(RecordedNote& note, const RecordedNote& next) {
    const double a = 1 / std::pow(note.pitch.half_width_cents, 2);
    const double b = 1 / std::pow(next.pitch.half_width_cents, 2);
    const double apart = cents_above(next.pitch.hz, note.pitch.hz);
    note.pitch.hz *= std::exp2(apart * b / (a + b) / 1200);
    note.pitch.half_width_cents = std::max(1 / std::sqrt(a + b), std::abs(apart) / 2);
    note.end_s = next.end_s;
}

void extend(RecordedNote& note, const RecordedNote& next) {
    if (next.pitch.half_width_cents < note.pitch.half_width_cents)
        note.pitch = next.pitch;
    note.end_s = next.end_s;
}

bool comes_back(const RecordedNote& note, const NoteSpan& span, const RecordedNote& before) {
    constexpr double at_once_s = 0.06;
    return !span.struck && note.start_s - before.end_s < at_once_s
           && cents_apart(note, before) < new_note_cents;
}

double lower_hz(const RecordedNote& note, const NoteSpan& span,
                const std::vector<RecordedNote>& notes) {
    constexpr double at_once_s = 0.06, least_s = 0.25;
    const std::vector<double> cents = voiced_cents(span);
    if (span.struck || note.end_s - note.start_s < least_s || notes.empty() || cents.empty()
        || note.start_s - notes.back().end_s >= at_once_s || note.level_db >= notes.back().level_db)
        return 0;
    const double hz = std::exp2(median(cents) / 1200);
    return cents_above(hz, notes.back().pitch.hz) < -new_note_cents ? hz : 0;
}

bool is_tail(const RecordedNote& note, const NoteSpan& span, const RecordedNote* before) {
    return !span.struck && !span.continues && before && note.start_s - before->end_s < tail_gap_s
           && note.level_db < before->level_db - tail_db;
}

bool is_rest(const RecordedNote& note, const NoteSpan& span,
             const std::vector<RecordedNote>& refused) {
    return !refused.empty() && refused.back().pitch.trouble == NoteTrouble::several_notes
           && refused.back().end_s - refused.back().start_s > note.end_s - note.start_s
           && is_tail(note, span, &refused.back());
}

bool is_between(const RecordedNote& note, const NoteSpan& span, double sounded_to_s) {
    constexpr double short_s = 0.12, at_once_s = 0.03;
    return !span.struck && !span.continues && std::abs(note.start_s - sounded_to_s) < at_once_s
           && note.end_s - note.start_s < short_s;
}

bool begins_within(const RecordedNote& note, const RecordedNote& before) {
    return note.start_s < before.end_s && cents_apart(note, before) < new_note_cents;
}

bool is_louder(std::span<const float> sound, double rate, double power) {
    constexpr double first_s = 0.3, two_decibels = 1.58;
    const auto first =
        sound.first(std::min(sound.size(), static_cast<std::size_t>(first_s * rate)));
    double sum = 0;
    for (const float sample : first)
        sum += std::pow(static_cast<double>(sample), 2);
    return sum > two_decibels * power * static_cast<double>(first.size());
}

bool is_drone(const RecordedNote& note, const NoteSpan& span, const std::vector<DronePitch>& drone,
              bool louder) {
    constexpr double near_cents = 35, short_s = 0.25;
    const double coarse = static_cast<double>(span.track[span.track.size() / 2].hz);
    const bool is_short = note.end_s - note.start_s < short_s;
    const auto near = [](double hz, double other) {
        return hz > 0 && std::abs(cents_above(hz, other)) < near_cents;
    };
    return std::any_of(drone.begin(), drone.end(), [&](const DronePitch& d) {
        return near(note.pitch.hz, d.hz) ? !louder : is_short && near(coarse, d.hz);
    });
}

bool is_covered_rest(const RecordedNote& note, const NoteSpan& span,
                     const std::vector<RecordedNote>& notes, const std::vector<DronePitch>& drone,
                     double sounded_to_s) {
    constexpr double near_cents = 25, badly_cents = 0.5, softer_db = 2, at_once_s = 0.03;
    const auto is_multiple = [](double hz, double of, double least_times) {
        const double times = std::round(hz / of);
        return times >= least_times && std::abs(cents_above(hz / of, times)) < near_cents;
    };
    return !notes.empty() && !span.struck && note.start_s - sounded_to_s < at_once_s
           && note.pitch.half_width_cents > badly_cents
           && note.level_db < notes.back().level_db - softer_db
           && is_multiple(note.pitch.hz, notes.back().pitch.hz, 2)
           && std::any_of(drone.begin(), drone.end(), [&](const DronePitch& d) {
                  return is_multiple(notes.back().pitch.hz, d.hz, 1);
              });
}

std::vector<RecordedNote> take_out_soft(std::vector<RecordedNote>& notes, double softer_db) {
    std::vector<double> levels;
    for (const RecordedNote& note : notes)
        levels.push_back(note.level_db);
    const double least = levels.empty() ? 0 : median(levels) - softer_db;
    const auto soft =
        std::stable_partition(notes.begin(), notes.end(),
                              [least](const RecordedNote& note) { return note.level_db >= least; });
    std::vector<RecordedNote> taken(soft, notes.end());
    notes.erase(soft, notes.end());
    return taken;
}

std::optional<double> rise_in(std::span<const float> sound, double rate, double hz) {
    constexpr double step_s = 0.001, least_s = 0.008, most_s = 0.03;
    const double period_s = std::clamp(hz > 0 ? 1 / hz : 0.0, least_s, most_s);
    const auto length = static_cast<std::size_t>(period_s * rate);
    const auto step = std::max<std::size_t>(1, static_cast<std::size_t>(step_s * rate));
    const std::vector<double> powers = powers_of(sound, length, step);
    if (powers.empty())
        return std::nullopt;
    const auto top = std::max_element(powers.begin(), powers.end());
    const double before = *std::min_element(powers.begin(), top + 1);
    const double threshold = std::max(*top / 100, 2 * before);
    auto rise = top;
    while (rise != powers.begin() && *(rise - 1) > threshold)
        --rise;
    if (*top < threshold || rise == powers.begin())
        return std::nullopt;
    const auto at = [&](double times) {
        return std::find_if(rise, top, [&](double power) {
            return power > before + times * times * (threshold - before);
        });
    };
    // What grows within the stretch is as strong as it says at its end, what grows slowly before.
    const std::ptrdiff_t doubled = at(2) - rise, again = at(4) == top ? 0 : at(4) - at(2);
    const auto late = std::min(doubled, static_cast<std::ptrdiff_t>(length / step / 2));
    const double first =
        static_cast<double>(rise - powers.begin() - late) - grown_for(doubled, again);
    return (std::max(0.0, first) * static_cast<double>(step) + static_cast<double>(length)) / rate;
}

std::optional<double> arrival_in(std::span<const TrackFrame> track, std::size_t settled,
                                 double hz) {
    constexpr double near_cents = 5, least_cents = 30, middle_from = 0.2, middle_to = 0.8;
    const auto off = [&](std::size_t i) {
        return track[i].hz > 0 ? cents_above(static_cast<double>(track[i].hz), hz) : 0.0;
    };
    std::size_t last = settled;
    while (last > 0 && std::abs(off(last)) < near_cents)
        --last;
    std::size_t first = last; // the way there is as long as the distance grows to one side
    while (first > 0 && off(first - 1) * off(last) > 0
           && std::abs(off(first - 1)) > std::abs(off(first)))
        --first;
    const double all = off(first);
    if (std::abs(all) < least_cents)
        return std::nullopt;
    double count = 0, sx = 0, sy = 0, sxx = 0, sxy = 0;
    for (std::size_t i = first; i <= last; ++i)
        if (const double x = off(i) / all; x > middle_from && x < middle_to) {
            const double y = static_cast<double>(i);
            ++count, sx += x, sy += y, sxx += x * x, sxy += x * y;
        }
    const double spread = count * sxx - sx * sx;
    if (count >= 2 && spread > 0)
        return (sxx * sy - sx * sxy) / spread;
    std::size_t before = last;
    while (before > first && off(before) / all < 0.5)
        --before;
    const double here = off(before) / all, next = off(before + 1) / all;
    return static_cast<double>(before) + (here - 0.5) / (here - next);
}

} // namespace sectio::measure
