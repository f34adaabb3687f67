#include <sectio/measure/heard_pitches.hpp>
#include <sectio/measure/messages.hpp>
#include <sectio/measure/statistics.hpp>
#include <sectio/measure/tonic.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

namespace sectio::measure {

namespace {

struct Heard {
    double cents;
    double half_width;
    double seconds;
    std::string file;
};

double cents_of(double hz) {
    return 1200 * std::log2(hz);
}

std::vector<Heard> all_notes(const std::vector<Recording>& recordings) {
    std::vector<Heard> notes;
    for (const Recording& recording : recordings)
        for (const RecordedNote& note : recording.notes)
            notes.push_back({cents_of(note.pitch.hz), note.pitch.half_width_cents,
                             note.end_s - note.start_s, recording.name});
    return notes;
}

/// The mean of several notes, each weighted by its own doubt and the scatter between them
/// (DerSimonian and Laird 1986: the scatter that the notes' own doubts do not account for).
HeardPitch together(const std::vector<Heard>& notes) {
    HeardPitch pitch;
    double sw = 0, sw2 = 0, sc = 0;
    for (const Heard& n : notes) {
        const double w = std::pow(normal_95 / n.half_width, 2);
        sw += w, sw2 += w * w, sc += w * n.cents, pitch.seconds += n.seconds;
    }
    double q = 0;
    for (const Heard& n : notes)
        q += std::pow(normal_95 / n.half_width * (n.cents - sc / sw), 2);
    const int freedom = static_cast<int>(notes.size()) - 1;
    const bool scattered = freedom > 0 && q > freedom;
    const double between = scattered ? (q - freedom) / (sw - sw2 / sw) : 0;
    double w_all = 0, mean = 0;
    for (const Heard& n : notes) {
        const double w = 1 / (std::pow(n.half_width / normal_95, 2) + between);
        w_all += w, mean += w * n.cents;
    }
    mean /= w_all;
    for (const Heard& n : notes)
        pitch.spread_cents += freedom > 0 ? std::pow(n.cents - mean, 2) / freedom : 0;
    pitch.spread_cents = std::sqrt(pitch.spread_cents);
    pitch.hz = std::exp2(mean / 1200);
    pitch.half_width_cents = student_95(scattered ? freedom : 0) / std::sqrt(w_all);
    pitch.notes = notes.size();
    return pitch;
}

std::vector<HeardPitch> pitches_of(const std::vector<Heard>& notes, bool by_file) {
    std::vector<SoundedPitch> sounded;
    for (const Heard& n : notes)
        sounded.push_back({n.cents, 1});
    const std::vector<HistogramPeak> peaks = PitchHistogram(sounded, false).peaks(0);
    std::vector<std::vector<Heard>> groups(peaks.size());
    for (const Heard& n : notes) {
        const auto nearest =
            std::min_element(peaks.begin(), peaks.end(), [&](const auto& a, const auto& b) {
                return std::abs(a.cents - n.cents) < std::abs(b.cents - n.cents);
            });
        groups[static_cast<std::size_t>(nearest - peaks.begin())].push_back(n);
    }
    std::vector<HeardPitch> pitches;
    for (const auto& group : groups) {
        if (group.empty())
            continue;
        pitches.push_back(together(group));
        pitches.back().label = by_file ? std::filesystem::path(group.front().file).stem().string()
                                       : fmt::format("{}", pitches.size());
    }
    return pitches;
}

std::vector<MelodyNote> melody_of(const Recording& recording) {
    std::vector<MelodyNote> melody;
    for (const RecordedNote& note : recording.notes)
        melody.push_back({cents_of(note.pitch.hz), note.start_s, note.end_s - note.start_s});
    return melody;
}

void find_tonic(Hearing& hearing) {
    hearing.tonic_hz = hearing.pitches.front().hz;
    if (hearing.recordings.size() != 1 || hearing.recordings[0].notes.size() < 3)
        return;
    const auto& notes = hearing.recordings[0].notes;
    const auto lower = [](const RecordedNote& a, const RecordedNote& b) {
        return a.pitch.hz < b.pitch.hz;
    };
    const auto higher = [&](const RecordedNote& a, const RecordedNote& b) { return lower(b, a); };
    double hz = 0;
    if (std::is_sorted(notes.begin(), notes.end(), lower)) {
        hearing.tonic_basis = TonicBasis::scale_start;
        hz = notes.front().pitch.hz;
    } else if (std::is_sorted(notes.begin(), notes.end(), higher)) {
        hearing.tonic_basis = TonicBasis::scale_end;
        hz = notes.back().pitch.hz;
    } else if (const auto likely = likely_tonic(melody_of(hearing.recordings[0]))) {
        hearing.tonic_basis = TonicBasis::melody;
        hearing.tonic_probability = likely->probability;
        hz = std::exp2(likely->cents / 1200);
    }
    // The tonic is the pitch as it was measured, not the top of a hill.
    hearing.tonic_hz =
        std::min_element(hearing.pitches.begin(), hearing.pitches.end(),
                         [&](const HeardPitch& a, const HeardPitch& b) {
                             return std::abs(std::log(a.hz / hz)) < std::abs(std::log(b.hz / hz));
                         })
            ->hz;
}

} // namespace

std::string_view text(TonicBasis basis) {
    constexpr std::string_view names[]{
        "as asked", "the lowest pitch", "the first note of a rising scale",
        "the last note of a falling scale", "the melody's likely tonic"};
    return names[static_cast<std::size_t>(basis)];
}

std::size_t Hearing::note_count() const {
    std::size_t count = 0;
    for (const Recording& recording : recordings)
        count += recording.notes.size();
    return count;
}

Hearing hear(std::vector<Recording> recordings, std::optional<double> tonic_hz) {
    Hearing hearing;
    const bool by_file = recordings.size() > 1
                         && std::all_of(recordings.begin(), recordings.end(),
                                        [](const Recording& r) { return r.notes.size() == 1; });
    hearing.recordings = std::move(recordings);
    if (hearing.note_count() == 0)
        throw error(message::nothing_heard, "", {});
    hearing.pitches = pitches_of(all_notes(hearing.recordings), by_file);
    if (tonic_hz) {
        hearing.tonic_hz = *tonic_hz;
        hearing.tonic_basis = TonicBasis::asked;
    } else {
        find_tonic(hearing);
    }
    return hearing;
}

} // namespace sectio::measure
