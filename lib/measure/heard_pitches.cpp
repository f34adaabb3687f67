#include <sectio/base/argument.hpp>
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

std::vector<Heard> all_notes(const std::vector<Recording>& recordings) {
    std::vector<Heard> notes;
    for (const Recording& recording : recordings)
        for (const RecordedNote& note : recording.notes)
            notes.push_back({cents_above(note.pitch.hz, 1), note.pitch.half_width_cents,
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

using Group = std::vector<Heard>;

/// The hills of the histogram of all notes, each with its own.
std::vector<Group> hills_of(const std::vector<Heard>& notes) {
    std::vector<SoundedPitch> sounded;
    for (const Heard& n : notes)
        sounded.push_back({n.cents, 1});
    const std::vector<HistogramPeak> peaks = PitchHistogram(sounded, false).peaks(0);
    std::vector<Group> groups(peaks.size());
    for (const Heard& n : notes) {
        const auto nearest =
            std::min_element(peaks.begin(), peaks.end(), [&](const auto& a, const auto& b) {
                return std::abs(a.cents - n.cents) < std::abs(b.cents - n.cents);
            });
        groups[static_cast<std::size_t>(nearest - peaks.begin())].push_back(n);
    }
    std::erase_if(groups, [](const Group& group) { return group.empty(); });
    return groups;
}

/// By how much notes of one degree lie apart, as a standard deviation: the median over the hills
/// that have several notes, where there are enough of these to know it, and the lower one of an
/// even number, since hills of two degrees say too much; else half a cent, which is our choice,
/// lest each note of a string that is plucked again be a degree.
double usual_scatter(const std::vector<Group>& hills) {
    constexpr double unknown_cents = 0.5;
    constexpr std::size_t enough_hills = 3;
    std::vector<double> scatter;
    for (const Group& hill : hills)
        if (hill.size() > 1)
            scatter.push_back(together(hill).spread_cents);
    if (scatter.size() < enough_hills)
        return unknown_cents;
    const auto lower = scatter.begin() + static_cast<std::ptrdiff_t>((scatter.size() - 1) / 2);
    std::nth_element(scatter.begin(), lower, scatter.end());
    return *lower;
}

/// Cuts a hill where two neighbours lie further apart than their own doubts and the scatter within
/// a degree allow (99 of 100), so that degrees a comma apart are two where the notes are known so
/// well.
void cut_apart(Group hill, double scatter, std::vector<Group>& groups) {
    constexpr double normal_99 = 2.575829;
    std::sort(hill.begin(), hill.end(),
              [](const Heard& a, const Heard& b) { return a.cents < b.cents; });
    groups.push_back({hill.front()});
    for (std::size_t i = 1; i < hill.size(); ++i) {
        const double doubts = std::hypot(hill[i].half_width, hill[i - 1].half_width) / normal_95;
        const double allowed = normal_99 * std::hypot(doubts, std::sqrt(2.0) * scatter);
        if (hill[i].cents - hill[i - 1].cents > allowed)
            groups.emplace_back();
        groups.back().push_back(hill[i]);
    }
}

std::vector<HeardPitch> pitches_of(const std::vector<Heard>& notes, bool by_file) {
    const std::vector<Group> hills = hills_of(notes);
    std::vector<Group> groups;
    for (const Group& hill : hills)
        cut_apart(hill, usual_scatter(hills), groups);
    std::vector<HeardPitch> pitches;
    for (const Group& group : groups) {
        pitches.push_back(together(group));
        pitches.back().label = by_file ? std::filesystem::path(group.front().file).stem().string()
                                       : fmt::format("{}", pitches.size());
    }
    return pitches;
}

std::vector<MelodyNote> melody_of(const Recording& recording) {
    std::vector<MelodyNote> melody;
    for (const RecordedNote& note : recording.notes)
        melody.push_back({cents_above(note.pitch.hz, 1), note.start_s, note.end_s - note.start_s});
    return melody;
}

/// Within which drones and pitches are octaves of one another.
constexpr double same_octaves = 25.0 / 1200;

/// The drone's lowest pitch, in the octave at or below the lowest pitch heard; where that one lies
/// there, as it was measured.
void set_tonic_over(const DronePitch& drone, Hearing& hearing) {
    const double octaves = std::log2(hearing.tonic_hz / drone.hz);
    const double whole = std::floor(octaves + same_octaves);
    hearing.tonic_basis = TonicBasis::drone;
    if (octaves - whole < same_octaves)
        return;
    hearing.tonic_hz = drone.hz * std::exp2(whole);
    hearing.tonic_half_width_cents = drone.half_width_cents;
}

/// The lowest drone of the recordings that have one, where these agree, octaves not counted: the
/// one that is known best, no surer than they agree.
std::optional<DronePitch> common_drone(const std::vector<Recording>& recordings) {
    std::vector<DronePitch> lowest;
    for (const Recording& recording : recordings)
        if (!recording.drone.empty())
            lowest.push_back(recording.drone.front());
    if (lowest.empty())
        return std::nullopt;
    DronePitch common = *std::min_element(lowest.begin(), lowest.end(), [](auto& a, auto& b) {
        return a.half_width_cents < b.half_width_cents;
    });
    const DronePitch best = common;
    for (const DronePitch& drone : lowest) {
        const double octaves = std::log2(drone.hz / best.hz);
        const double apart = std::abs(octaves - std::round(octaves));
        if (apart > same_octaves)
            return std::nullopt;
        common.half_width_cents = std::max(common.half_width_cents, 1200 * apart);
    }
    return common;
}

void find_tonic(Hearing& hearing) {
    hearing.tonic_hz = hearing.pitches.front().hz;
    if (const auto drone = common_drone(hearing.recordings)) {
        set_tonic_over(*drone, hearing);
        return;
    }
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
    constexpr std::string_view names[]{"as asked",
                                       "the lowest pitch",
                                       "the first note of a rising scale",
                                       "the last note of a falling scale",
                                       "the melody's likely tonic",
                                       "the drone"};
    return row_for(names, basis);
}

std::size_t Hearing::note_count() const {
    std::size_t count = 0;
    for (const Recording& recording : recordings)
        count += recording.notes.size();
    return count;
}

void check_notes(const Recording& recording) {
    const auto from_zero = [](double value) { return value >= 0 && std::isfinite(value); };
    for (const RecordedNote& note : recording.notes)
        if (!from_zero(note.start_s) || !from_zero(note.end_s - note.start_s)
            || !from_zero(note.pitch.half_width_cents) || !from_zero(note.pitch.hz)
            || note.pitch.hz == 0)
            throw error(message::note_not_measured, "", {recording.name});
}

void check_heard(const Hearing& hearing) {
    if (hearing.recordings.empty() || hearing.pitches.empty())
        throw error(message::nothing_heard, "", {});
    for (const Recording& recording : hearing.recordings)
        check_notes(recording);
}

Hearing hear(std::vector<Recording> recordings, std::optional<double> tonic_hz) {
    Hearing hearing;
    const bool by_file = recordings.size() > 1
                         && std::all_of(recordings.begin(), recordings.end(),
                                        [](const Recording& r) { return r.notes.size() == 1; });
    hearing.recordings = std::move(recordings);
    if (hearing.note_count() == 0)
        throw error(message::nothing_heard, "", {});
    for (const Recording& recording : hearing.recordings)
        check_notes(recording);
    hearing.pitches = pitches_of(all_notes(hearing.recordings), by_file);
    if (tonic_hz) {
        check_argument(*tonic_hz > 0 && std::isfinite(*tonic_hz), "a tonic's frequency", "above 0");
        hearing.tonic_hz = *tonic_hz;
        hearing.tonic_basis = TonicBasis::asked;
    } else {
        find_tonic(hearing);
    }
    return hearing;
}

} // namespace sectio::measure
