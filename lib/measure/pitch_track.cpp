#include <sectio/base/limits.hpp>
#include <sectio/measure/messages.hpp>
#include <sectio/measure/note_spans.hpp>
#include <sectio/measure/pitch_track.hpp>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>

namespace sectio::measure {

namespace {

constexpr double highest_track_hz = 20'000;
constexpr std::size_t least_frames = 3;
/// A track states no error of its own; half a cent is what most say no finer.
constexpr double least_half_width_cents = 0.5;
constexpr double independent_s = 0.25;

std::vector<std::string_view> cells_of(std::string_view line) {
    std::vector<std::string_view> cells;
    constexpr std::string_view between = ",;\t \r";
    for (std::size_t at = 0; at < line.size();) {
        const std::size_t begin = std::min(line.find_first_not_of(between, at), line.size());
        const std::size_t end = std::min(line.find_first_of(between, begin), line.size());
        if (end > begin)
            cells.push_back(line.substr(begin, end - begin));
        at = end + 1;
    }
    return cells;
}

std::optional<double> number(std::string_view text) {
    double value = 0;
    const auto [end, trouble] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (trouble != std::errc() || end != text.data() + text.size() || !std::isfinite(value))
        return std::nullopt;
    return value;
}

struct TrackValue {
    double seconds;
    double hz;
};

/// One line, or nothing for a heading in the first.
std::optional<TrackValue> value_of(std::string_view line, std::size_t line_number,
                                   const std::string& name, double seconds) {
    const std::vector<std::string_view> cells = cells_of(line);
    const auto first = number(cells[0]), second = cells.size() > 1 ? number(cells[1]) : first;
    if (line_number == 1 && !first)
        return std::nullopt;
    if (!first || !second || *second < 0 || *second > highest_track_hz)
        throw error(message::track_value, cells[cells.size() > 1 ? 1 : 0], {name, line_number});
    return TrackValue{cells.size() > 1 ? *first : seconds, *second};
}

/// The usual distance of times; gaps are longer.
double step_of(const std::vector<TrackValue>& values, double otherwise) {
    std::vector<double> steps;
    for (std::size_t i = 1; i < values.size(); ++i)
        if (values[i].seconds > values[i - 1].seconds)
            steps.push_back(values[i].seconds - values[i - 1].seconds);
    if (steps.empty())
        return otherwise;
    auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
    std::nth_element(steps.begin(), middle, steps.end());
    return *middle;
}

double median(std::vector<double> values) {
    auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

RecordedNote note_of(const NoteSpan& span, double step_s) {
    std::vector<double> cents;
    for (const TrackFrame& frame : span.track)
        if (frame.hz > 0)
            cents.push_back(1200 * std::log2(static_cast<double>(frame.hz)));
    const double centre = median(cents);
    std::vector<double> away;
    for (double c : cents)
        away.push_back(std::abs(c - centre));
    RecordedNote note;
    note.start_s = static_cast<double>(span.first) * step_s;
    note.end_s = static_cast<double>(span.last) * step_s;
    note.pitch.hz = std::exp2(centre / 1200);
    note.pitch.wander_cents = 1.4826 * median(away);
    const double moments =
        std::max(1.0, static_cast<double>(cents.size()) * step_s / independent_s);
    note.pitch.half_width_cents =
        std::max(least_half_width_cents, 1.96 * note.pitch.wander_cents / std::sqrt(moments));
    return note;
}

} // namespace

PitchTrack read_pitch_track(std::string_view text, const std::string& name, double step_s) {
    std::vector<TrackValue> values;
    std::size_t line_number = 0;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        const std::string_view line = text.substr(at, end - at);
        ++line_number;
        at = end + 1;
        if (line.empty() || line[0] == '#' || cells_of(line).empty())
            continue;
        if (const auto value =
                value_of(line, line_number, name, static_cast<double>(values.size()) * step_s))
            values.push_back(*value);
    }
    PitchTrack track;
    track.step_s = step_of(values, step_s);
    const double most = limits::sound_hours * 3600.0;
    for (const TrackValue& v : values) {
        const double seconds = v.seconds - values.front().seconds;
        if (seconds < 0 || seconds > most
            || seconds / track.step_s > static_cast<double>(limits::table_bytes))
            throw error(message::sound_too_long, "", {name}, limits::sound_hours);
        const auto frame = static_cast<std::size_t>(std::lround(seconds / track.step_s));
        track.hz.resize(std::max(track.hz.size(), frame + 1));
        track.hz[frame] = static_cast<float>(v.hz);
    }
    if (std::none_of(track.hz.begin(), track.hz.end(), [](float hz) { return hz > 0; }))
        throw error(message::track_empty, "", {name});
    return track;
}

Recording recording_of(const PitchTrack& track, const std::string& name) {
    Recording recording;
    recording.name = name;
    recording.track_step_s = track.step_s;
    recording.seconds = static_cast<double>(track.hz.size()) * track.step_s;
    NoteSpans spans(track.hz.size() + 1);
    const auto take = [&](const std::optional<NoteSpan>& span) {
        if (span && span->track.size() >= least_frames)
            recording.notes.push_back(note_of(*span, track.step_s));
    };
    for (const float hz : track.hz) {
        recording.track.push_back({hz, 1, 1});
        take(spans.push(recording.track.back()));
    }
    take(spans.finish());
    if (recording.notes.empty())
        throw error(message::recording_notes_too_short, "", {name});
    return recording;
}

} // namespace sectio::measure
