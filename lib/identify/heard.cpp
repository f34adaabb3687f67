#include <sectio/identify/cents.hpp>
#include <sectio/identify/heard.hpp>
#include <sectio/identify/identify.hpp>
#include <sectio/identify/messages.hpp>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

/// A track has at least this many moments.
constexpr std::size_t least_moments = 500;
/// Moments of one note stay within this many cents; a note has at least this many of them.
constexpr double note_range = 100;
constexpr std::size_t note_moments = 2;
/// Time within this many bins of a peak is the peak's.
constexpr int peak_bins = 6;

bool is_track(const Melody& melody) {
    return melody.in_time && melody.notes.size() >= least_moments
           && std::all_of(melody.notes.begin(), melody.notes.end(), [&](const WeightedPitch& n) {
                  return n.weight == melody.notes.front().weight;
              });
}

/// Where the note that begins at `from` ends: after the last moment that stays within its range.
std::size_t note_end(const Melody& melody, const std::vector<double>& cents, std::size_t from) {
    double low = cents[from], high = cents[from];
    std::size_t end = from + 1;
    while (end < cents.size() && !melody.notes[end - 1].ends_phrase) {
        low = std::min(low, cents[end]);
        high = std::max(high, cents[end]);
        if (high - low > note_range)
            break;
        ++end;
    }
    return end;
}

WeightedPitch note_of(const Melody& melody, const std::vector<double>& cents, std::size_t from,
                      std::size_t end) {
    std::vector<std::size_t> order;
    for (std::size_t i = from; i < end; ++i)
        order.push_back(i);
    const auto middle = order.begin() + static_cast<std::ptrdiff_t>(order.size() / 2);
    std::nth_element(order.begin(), middle, order.end(),
                     [&](std::size_t a, std::size_t b) { return cents[a] < cents[b]; });
    WeightedPitch note = melody.notes[*middle];
    note.weight = note.weight * Integer(end - from);
    note.ends_phrase = melody.notes[end - 1].ends_phrase;
    return note;
}

/// The mean of the notes that are the peak's, by time; the peak where none is.
double mean_near(const Melody& notes, double peak) {
    double sum = 0, time = 0;
    for (const WeightedPitch& note : notes.notes) {
        const double cents = cents_of(note.interval);
        if (std::abs(cents - peak) > (peak_bins + 0.5) * cents_per_bin)
            continue;
        const double weight = boost::rational_cast<double>(note.weight);
        sum += weight * cents, time += weight;
    }
    return time > 0 ? sum / time : peak;
}

} // namespace

bool is_heard(const Melody& melody) {
    return melody.zero != MelodyZero::written && !counted_in(melody, 12) && !counted_in(melody, 53);
}

Melody notes_of_track(const Melody& melody) {
    if (!is_track(melody))
        return melody;
    std::vector<double> cents;
    for (const WeightedPitch& note : melody.notes)
        cents.push_back(cents_of(note.interval));
    Melody notes = melody;
    notes.notes.clear();
    for (std::size_t from = 0; from < cents.size();) {
        const std::size_t end = note_end(melody, cents, from);
        if (end - from >= note_moments)
            notes.notes.push_back(note_of(melody, cents, from, end));
        from = end;
    }
    return notes.notes.empty() ? melody : notes;
}

PitchSet heard_degrees(const Progression& progression, const Melody& notes,
                       const Interval& reference) {
    PitchSet set;
    set.reference = reference;
    const auto& shares = progression.by_time.shares;
    double total = 0;
    for (const int peak : peaks(shares)) {
        const double cents = mean_near(notes, peak * cents_per_bin);
        const Interval above =
            Interval::from_cents(Rational(std::lround(10 * cents), 10)) - reference;
        double weight = 0;
        for (const Share& s : shares)
            weight += std::abs(s.bin - peak) <= peak_bins ? s.share : 0;
        set.intervals.push_back(above);
        set.pitches.push_back({cents_of(above), 0, weight});
        total += weight;
    }
    if (set.pitches.size() < 2)
        throw error(message::one_pitch, "", {});
    for (PitchOfSet& pitch : set.pitches)
        pitch.weight *= static_cast<double>(set.pitches.size()) / total;
    return set;
}

} // namespace sectio
