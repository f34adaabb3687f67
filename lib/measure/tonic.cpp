#include <sectio/measure/note_spans.hpp>
#include <sectio/measure/statistics.hpp>
#include <sectio/measure/tonic.hpp>

#include <algorithm>
#include <cmath>

namespace sectio::measure {

namespace {

/// Pitches within this of a peak are that degree.
constexpr double near_cents = 35;
/// The last notes: weights fall by e over so much sounding time, backwards.
constexpr double last_s = 3;
constexpr double rest_s = 0.4;
constexpr double weight_last = 4, weight_rests = 1, weight_all = 1;

double folded_distance(double a, double b) {
    const double d = std::fmod(std::abs(a - b), 1200.0);
    return std::min(d, 1200 - d);
}

bool near_peak(const MelodyNote& note, double cents) {
    return folded_distance(note.cents, cents) < near_cents;
}

/// The part of the last notes that lies on the peak.
double share_of_last(const std::vector<MelodyNote>& notes, double cents) {
    double all = 0, on = 0, after = 0;
    for (auto note = notes.rbegin(); note != notes.rend(); ++note) {
        const double weight = std::exp(-after / last_s) * note->seconds;
        all += weight;
        on += near_peak(*note, cents) ? weight : 0;
        after += note->seconds;
    }
    return all > 0 ? on / all : 0;
}

double share_before_rests(const std::vector<MelodyNote>& notes, double cents) {
    double all = 0, on = 0;
    for (std::size_t i = 0; i < notes.size(); ++i) {
        const bool last = i + 1 == notes.size();
        if (!last && notes[i + 1].start_s - notes[i].start_s - notes[i].seconds < rest_s)
            continue;
        all += notes[i].seconds;
        on += near_peak(notes[i], cents) ? notes[i].seconds : 0;
    }
    return all > 0 ? on / all : 0;
}

/// In the octave of the last note that lies on the tonic.
double in_octave(const std::vector<MelodyNote>& notes, double cents) {
    for (auto note = notes.rbegin(); note != notes.rend(); ++note)
        if (near_peak(*note, cents))
            return cents + 1200 * std::round((note->cents - cents) / 1200);
    return cents;
}

} // namespace

std::optional<LikelyTonic> likely_tonic(const std::vector<MelodyNote>& notes) {
    std::vector<SoundedPitch> sounded;
    double all = 0;
    for (const MelodyNote& note : notes)
        sounded.push_back({note.cents, note.seconds}), all += note.seconds;
    const std::vector<HistogramPeak> peaks = PitchHistogram(sounded, true).peaks();
    if (peaks.empty())
        return std::nullopt;
    std::vector<double> scores;
    double sum = 0;
    for (const HistogramPeak& peak : peaks) {
        scores.push_back(weight_all * peak.seconds / all
                         + weight_last * share_of_last(notes, peak.cents)
                         + weight_rests * share_before_rests(notes, peak.cents));
        sum += scores.back();
    }
    const auto best =
        static_cast<std::size_t>(std::max_element(scores.begin(), scores.end()) - scores.begin());
    return LikelyTonic{in_octave(notes, peaks[best].cents), scores[best] / sum};
}

std::vector<MelodyNote> notes_of_track(const std::vector<float>& hz, double step_s) {
    std::vector<MelodyNote> notes;
    NoteSpans spans(hz.size() + 1);
    const auto take = [&](const std::optional<NoteSpan>& span) {
        if (!span || span->track.size() < 3)
            return;
        std::vector<double> cents;
        for (const TrackFrame& frame : span->track)
            if (frame.hz > 0)
                cents.push_back(cents_above(static_cast<double>(frame.hz), 1));
        auto middle = cents.begin() + static_cast<std::ptrdiff_t>(cents.size() / 2);
        std::nth_element(cents.begin(), middle, cents.end());
        notes.push_back({*middle, static_cast<double>(span->first) * step_s,
                         static_cast<double>(span->track.size()) * step_s});
    };
    for (const float value : hz)
        take(spans.push({value, 1, 1}));
    take(spans.finish());
    return notes;
}

} // namespace sectio::measure
