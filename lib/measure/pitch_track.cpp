#include <sectio/base/argument.hpp>
#include <sectio/base/file.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/measure/messages.hpp>
#include <sectio/measure/note_spans.hpp>
#include <sectio/measure/pitch_track.hpp>
#include <sectio/measure/statistics.hpp>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>
#include <utility>

namespace sectio::measure {

namespace {

constexpr double lowest_track_hz = 1, highest_track_hz = 20'000;
constexpr std::size_t least_frames = 3;
/// A track states no error of its own; half a cent is what most say no finer.
constexpr double least_half_width_cents = 0.5;

/// What stands between the cells of a line: a tab, else a semicolon, else a comma, else blanks.
char separator_of(std::string_view line) {
    for (const char separator : {'\t', ';', ','})
        if (line.find(separator) != line.npos)
            return separator;
    return ' ';
}

/// Empty ones at the end do not count, and blanks separate however many they are.
std::vector<std::string_view> cells_of(std::string_view line, char separator) {
    std::vector<std::string_view> cells;
    for (std::size_t at = 0; at <= line.size();) {
        const std::size_t end = std::min(line.find(separator, at), line.size());
        const std::string_view cell = trimmed(line.substr(at, end - at));
        if (separator != ' ' || !cell.empty())
            cells.push_back(cell);
        at = end + 1;
    }
    while (!cells.empty() && cells.back().empty())
        cells.pop_back();
    return cells;
}

/// A comma is the decimal sign where it does not separate.
std::optional<double> number(std::string_view text, char separator) {
    std::string written(text);
    if (separator != ',')
        std::replace(written.begin(), written.end(), ',', '.');
    const char* const last = written.data() + written.size();
    double value = 0;
    const auto [end, trouble] = std::from_chars(written.data(), last, value);
    if (trouble != std::errc() || end != last || !std::isfinite(value))
        return std::nullopt;
    return value;
}

struct TrackValue {
    double seconds;
    double hz;
};

bool is_pitch_or_none(double hz) {
    return hz == 0 || (hz >= lowest_track_hz && hz <= highest_track_hz);
}

/// Takes the lines of a table one by one.
class TrackReader {
  public:
    TrackReader(const std::string& name, double step_s) : name_(name), step_s_(step_s) {}

    void read(std::string_view line) {
        ++line_number_;
        const char separator = separator_of(line);
        const std::vector<std::string_view> cells = cells_of(line, separator);
        if (line.starts_with('#') || cells.empty())
            return;
        const bool may_be_heading = !std::exchange(begun_, true);
        const auto first = number(cells[0], separator);
        if (!first && may_be_heading)
            return;
        const bool timed = cells.size() > 1;
        const auto hz = timed ? number(cells[1], separator) : first;
        if (!first || !hz || !is_pitch_or_none(*hz))
            throw error(message::track_value, cells[first && timed ? 1 : 0], {name_, line_number_});
        add({timed ? *first : static_cast<double>(values_.size()) * step_s_, *hz}, cells[0]);
    }

    const std::vector<TrackValue>& values() const { return values_; }

  private:
    void add(const TrackValue& value, std::string_view time) {
        if (!values_.empty() && value.seconds < values_.back().seconds)
            throw error(message::track_order, time, {name_, line_number_});
        values_.push_back(value);
    }

    const std::string& name_;
    double step_s_;
    std::size_t line_number_ = 0;
    bool begun_ = false; ///< whether a line that counts was there
    std::vector<TrackValue> values_;
};

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

/// The values in frames as long as most of their distances are.
PitchTrack track_of(const std::vector<TrackValue>& values, const std::string& name, double step_s) {
    PitchTrack track;
    track.step_s = step_of(values, step_s);
    const double most = limits::sound_hours * 3600.0;
    for (const TrackValue& v : values) {
        const double seconds = v.seconds - values.front().seconds;
        if (seconds > most || seconds / track.step_s > static_cast<double>(limits::table_bytes))
            throw error(message::sound_too_long, "", {name}, limits::sound_hours);
        const auto frame = static_cast<std::size_t>(std::lround(seconds / track.step_s));
        track.hz.resize(std::max(track.hz.size(), frame + 1));
        track.hz[frame] = static_cast<float>(v.hz);
    }
    return track;
}

RecordedNote note_of(const NoteSpan& span, double step_s) {
    std::vector<double> cents;
    for (const TrackFrame& frame : span.track)
        if (frame.hz > 0)
            cents.push_back(cents_above(static_cast<double>(frame.hz), 1));
    const double centre = median(cents);
    RecordedNote note;
    note.start_s = static_cast<double>(span.first) * step_s;
    note.end_s = static_cast<double>(span.last) * step_s;
    note.pitch.hz = std::exp2(centre / 1200);
    note.pitch.wander_cents = robust_deviation(cents, centre);
    note.pitch.half_width_cents = std::max(
        least_half_width_cents,
        moving_half_width(note.pitch.wander_cents, static_cast<double>(cents.size()) * step_s));
    return note;
}

void check_step(double step_s) {
    check_argument(step_s > 0 && std::isfinite(step_s), "the step of a track", "above 0 seconds");
}

} // namespace

PitchTrack read_pitch_track(std::string_view text, const std::string& name, double step_s) {
    check_step(step_s);
    text = without_byte_order_mark(text);
    TrackReader reader(name, step_s);
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        reader.read(text.substr(at, end - at));
        at = end + 1;
    }
    const PitchTrack track = track_of(reader.values(), name, step_s);
    if (std::none_of(track.hz.begin(), track.hz.end(), [](float hz) { return hz > 0; }))
        throw error(message::track_empty, "", {name});
    return track;
}

Recording recording_of(const PitchTrack& track, const std::string& name) {
    check_step(track.step_s);
    check_argument(std::all_of(track.hz.begin(), track.hz.end(),
                               [](float hz) { return hz >= 0 && std::isfinite(hz); }),
                   "the frequencies of a track", "above 0, or 0 where there is no pitch");
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
