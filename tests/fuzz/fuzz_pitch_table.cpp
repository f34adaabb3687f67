// Any text as a pitch track, as a table of pitches to identify and as a tuner's readings: refused
// with a text, or read within the limits; and what was read, written down again, reads alike.

#include <sectio/base/limits.hpp>
#include <sectio/measure/hearing_page.hpp>
#include <sectio/measure/pitch_track.hpp>
#include <sectio/measure/readings_page.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/scale/scale_file_text.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <optional>
#include <string>
#include <vector>

using namespace sectio;
using namespace sectio::measure;

namespace {

void require(bool condition) {
    if (!condition)
        std::abort();
}

/// What `make` gives, or nothing where it is refused with a reason.
template <typename Make>
auto attempt(Make make) -> std::optional<decltype(make())> {
    try {
        return make();
    } catch (const Error& error) {
        require(!error.message().empty() && !error.advice().empty());
        return std::nullopt;
    }
}

/// A scale file of it reads as the same degrees, each as sure as it was.
void check_handed_on(const Scale& scale) {
    const Scale again = read_scale_file(scale_file_text(scale), "again.toml");
    require(again.degrees.size() == scale.degrees.size() && again.period == scale.period);
    for (std::size_t i = 0; i < scale.degrees.size(); ++i)
        require(again.degrees[i].interval == scale.degrees[i].interval
                && again.degrees[i].uncertainty == scale.degrees[i].uncertainty);
}

std::string text_of(const PitchTrack& track) {
    std::string text = "time,hz\n";
    for (std::size_t i = 0; i < track.hz.size(); ++i)
        text += fmt::format("{},{}\n", static_cast<double>(i) * track.step_s,
                            static_cast<double>(track.hz[i]));
    return text;
}

void check_track(const PitchTrack& track) {
    require(std::isfinite(track.step_s) && track.step_s > 0);
    require(!track.hz.empty() && track.hz.size() <= limits::table_bytes + 1);
    for (const float hz : track.hz)
        require(hz == 0 || (hz >= 1 && hz <= 20'000));
    require(std::any_of(track.hz.begin(), track.hz.end(), [](float hz) { return hz > 0; }));
}

/// Notes follow one another, and none lies beyond what the track holds.
void check_notes(const Recording& recording, const PitchTrack& track) {
    constexpr double rounding = 1e-9;
    double before_s = 0;
    const auto voiced = [](float hz) { return hz > 0; };
    const double highest = static_cast<double>(*std::max_element(track.hz.begin(), track.hz.end()));
    double lowest = highest;
    for (const float hz : track.hz)
        lowest = voiced(hz) ? std::min(lowest, static_cast<double>(hz)) : lowest;
    for (const RecordedNote& note : recording.notes) {
        require(note.start_s >= before_s && note.end_s > note.start_s);
        require(note.end_s <= recording.seconds * (1 + rounding));
        require(note.pitch.hz > lowest * (1 - rounding)
                && note.pitch.hz < highest * (1 + rounding));
        require(std::isfinite(note.pitch.half_width_cents) && note.pitch.half_width_cents > 0);
        before_s = note.end_s;
    }
}

/// Pitches rise, all notes are of one of them, and so is the tonic.
void check_hearing(const Hearing& hearing) {
    std::size_t notes = 0;
    bool has_tonic = false;
    for (std::size_t i = 0; i < hearing.pitches.size(); ++i) {
        require(i == 0 || hearing.pitches[i - 1].hz < hearing.pitches[i].hz);
        require(hearing.pitches[i].half_width_cents > 0);
        has_tonic = has_tonic || hearing.pitches[i].hz == hearing.tonic_hz;
        notes += hearing.pitches[i].notes;
    }
    require(has_tonic && notes == hearing.note_count());
    if (const auto scale = attempt([&] { return scale_of(hearing, std::nullopt); })) // not of one
        check_handed_on(*scale);
}

void check_whole_track(const PitchTrack& track) {
    constexpr std::size_t soon_done = 20'000;
    check_track(track);
    if (track.hz.size() > soon_done)
        return;
    require(read_pitch_track(text_of(track), "again.csv", track.step_s).hz == track.hz);
    const auto recording = attempt([&] { return recording_of(track, "fuzz.csv"); });
    if (!recording) // no note lasts long enough
        return;
    check_notes(*recording, track);
    check_hearing(hear({*recording}));
}

std::string quoted(const std::string& text) {
    std::string result = "\"";
    for (const char c : text)
        result += c == '"' ? std::string(2, c) : std::string(1, c);
    return result + "\"";
}

/// Each as an exact expression; written again, they have the same intervals in the same order.
void check_pitch_list(const PitchList& list) {
    require(!list.pitches.empty() && list.pitches.size() <= limits::identified_pitches);
    std::string table = "interval,label\n";
    for (const ListedPitch& pitch : list.pitches) {
        require(pitch.weight.numerator() > 0);
        require(!pitch.above.half_width || *pitch.above.half_width >= Interval());
        if (list.zero)
            static_cast<void>(*list.zero + pitch.above.figure); // within the octaves of a pitch
        table += quoted(to_expression(pitch.above.figure)) + "," + quoted(pitch.label) + "\n";
    }
    const PitchList again = read_pitch_table(table, "again.csv");
    require(again.pitches.size() == list.pitches.size());
    for (std::size_t i = 0; i < list.pitches.size(); ++i)
        require(again.pitches[i].above.figure == list.pitches[i].above.figure
                && again.pitches[i].label == list.pitches[i].label);
}

/// A mean lies among what it is the mean of, but for its rounding, and no reading is lost.
void check_readings(const std::vector<Reading>& readings) {
    const std::vector<ReadNote> notes = notes_of(readings, Interval::from_cents(Rational(20)));
    const auto lower = [](const Reading& a, const Reading& b) { return a.pitch < b.pitch; };
    const auto [lowest, highest] = std::minmax_element(readings.begin(), readings.end(), lower);
    const Interval rounding = Interval::from_cents(Rational(1, 100'000));
    std::size_t counted = 0;
    for (const ReadNote& note : notes) {
        require(note.pitch - lowest->pitch >= -rounding
                && highest->pitch - note.pitch >= -rounding);
        require(note.uncertainty >= Interval());
        counted += note.readings;
    }
    require(counted == readings.size());
    const PitchList list = measure::read_pitches(notes, std::nullopt, Pitch::concert_a());
    if (const auto scale = attempt([&] { return to_scale(list); }))
        check_handed_on(*scale);
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    const Pitch& a4 = Pitch::concert_a();
    if (const auto track = attempt([&] { return read_pitch_track(text, "fuzz.csv", 0.01); }))
        check_whole_track(*track);
    if (const auto list = attempt([&] { return read_pitch_table(text, "fuzz.csv"); }))
        check_pitch_list(*list);
    if (const auto readings = attempt([&] { return read_reading_table(text, "fuzz.csv", a4); }))
        check_readings(*readings);
    return 0;
}
