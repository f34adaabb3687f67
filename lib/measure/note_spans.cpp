#include <sectio/measure/note_spans.hpp>
#include <sectio/measure/statistics.hpp>

#include <algorithm>
#include <cmath>

namespace sectio::measure {

namespace {

constexpr double far_cents = 70, slight_cents = 30;
constexpr std::size_t far_frames = 2, slight_frames = 5, gap_frames = 2;
constexpr float growth = 3.16F; ///< 5 dB of power
/// A frame's pitch takes in sound from two frames ahead, its level from one ahead and one after: a
/// new pitch may begin three frames before its own attack has risen, and is not struck again then.
constexpr std::size_t attack_frames = 4;
/// Frames over which a soft attack is seen to rise.
constexpr std::size_t rising_frames = 7;
/// Frames whose median is the pitch that a note has by now.
constexpr std::size_t recent_frames = 10;

} // namespace

double NoteSpans::centre_cents() const {
    std::vector<double> recent;
    const std::size_t settled = open_.track.size() - std::max(far_, slightly_);
    for (std::size_t i = settled > recent_frames ? settled - recent_frames : 0; i < settled; ++i)
        if (open_.track[i].hz > 0)
            recent.push_back(cents_above(static_cast<double>(open_.track[i].hz), 1));
    if (recent.empty())
        return cents_above(static_cast<double>(open_.track.front().hz), 1);
    auto middle = recent.begin() + static_cast<std::ptrdiff_t>(recent.size() / 2);
    std::nth_element(recent.begin(), middle, recent.end());
    return *middle;
}

/// Whether the sound has not stopped growing before: a soft attack, which is one note.
bool NoteSpans::still_rising() const {
    constexpr float fallen = 0.8F, risen = 1.25F; // a decibel
    const float before = levels_[levels_.size() - 2];
    return before > risen * levels_.front()
           && before > fallen * *std::max_element(levels_.begin(), levels_.end() - 1);
}

bool NoteSpans::grown(const TrackFrame& frame) const {
    if (levels_.size() < 2)
        return true;
    return frame.level > growth * levels_[levels_.size() - 2] && frame.level > levels_.back();
}

/// Ends the open note before its last `keep_back` frames, which begin the next one.
std::optional<NoteSpan> NoteSpans::close(std::size_t keep_back, bool continues, bool struck) {
    NoteSpan done = std::move(open_);
    const auto cut = done.track.end() - static_cast<std::ptrdiff_t>(keep_back);
    open_ = {next_ - keep_back, 0, continues, struck, {cut, done.track.end()}};
    done.track.erase(cut, done.track.end());
    while (!done.track.empty() && done.track.back().hz == 0)
        done.track.pop_back();
    done.last = done.first + done.track.size();
    gap_ = far_ = slightly_ = 0;
    early_ = struck ? keep_back : 0;
    if (done.track.empty())
        return std::nullopt;
    return done;
}

/// Whether the string is struck at this frame; keeps the levels of the last frames.
bool NoteSpans::watch_level(const TrackFrame& frame) {
    const bool growing =
        grown(frame) && (open_.track.empty() || levels_.size() < 2 || !still_rising());
    levels_.push_back(frame.level);
    if (levels_.size() > rising_frames)
        levels_.pop_front();
    return growing;
}

/// Counts the frames in a row that lie off the open note's pitch on one side.
void NoteSpans::watch_pitch(const TrackFrame& frame) {
    const double away = cents_above(static_cast<double>(frame.hz), 1) - centre_cents();
    const int side = away > 0 ? 1 : -1;
    if (side != side_)
        far_ = slightly_ = 0;
    side_ = side;
    far_ = std::abs(away) > far_cents ? far_ + 1 : 0;
    slightly_ = std::abs(away) > slight_cents ? slightly_ + 1 : 0;
}

/// How many of the last frames, off the open note's pitch, have that of the frame at which a string
/// is struck: its pitch is heard before its sound has grown by so much.
std::size_t NoteSpans::begun_before(const TrackFrame& struck) const {
    const auto has_its_pitch = [&](const TrackFrame& frame) {
        return frame.hz > 0 && struck.hz > 0
               && std::abs(
                      cents_above(static_cast<double>(frame.hz), static_cast<double>(struck.hz)))
                      < slight_cents;
    };
    const auto last = open_.track.rbegin();
    const auto most = static_cast<std::ptrdiff_t>(std::min(slightly_, open_.track.size() - 1));
    return static_cast<std::size_t>(std::find_if_not(last, last + most, has_its_pitch) - last);
}

/// Adds the frame to the open note, which ends where it was away for long enough.
std::optional<NoteSpan> NoteSpans::add(const TrackFrame& frame) {
    if (frame.hz > 0 && !open_.track.empty())
        watch_pitch(frame);
    if (open_.track.empty())
        open_.first = next_;
    open_.track.push_back(frame);
    ++next_;
    gap_ = frame.hz > 0 ? 0 : gap_ + 1;
    std::optional<NoteSpan> done;
    if (gap_ >= gap_frames)
        done = close(gap_, false, false), open_ = {};
    else if (far_ >= far_frames)
        done = close(far_, false, false);
    else if (slightly_ >= slight_frames)
        done = close(slightly_, false, false);
    return done;
}

std::optional<NoteSpan> NoteSpans::push(const TrackFrame& frame) {
    const bool growing = watch_level(frame);
    if (open_.track.empty()) {
        if (frame.hz > 0)
            open_ = {next_, 0, open_.continues && open_.first == next_, growing, {frame}};
        ++next_;
        return std::nullopt;
    }
    std::optional<NoteSpan> done;
    if (growing && open_.track.size() >= early_ + attack_frames)
        done = close(pitch_leads_ ? begun_before(frame) : 0, false, true);
    else if (open_.track.size() >= most_frames_)
        done = close(0, true, false);
    if (frame.hz == 0 && open_.track.empty()) {
        ++next_;
        return done;
    }
    const std::optional<NoteSpan> ended = add(frame);
    return ended ? ended : done;
}

std::optional<NoteSpan> NoteSpans::finish(std::size_t after) {
    if (open_.track.empty())
        return std::nullopt;
    if (after > 0 && far_ > 0 && far_ < open_.track.size())
        return close(far_, false, false);
    std::optional<NoteSpan> done = close(0, false, false);
    if (done && done->last == next_)
        done->last += after;
    return done;
}

} // namespace sectio::measure
