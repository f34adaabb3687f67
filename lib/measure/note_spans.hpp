#pragma once
/// @file
/// Private to lib/measure: where the notes of a recording begin and end.

#include <sectio/measure/track_frame.hpp>

#include <cstddef>
#include <deque>
#include <optional>
#include <vector>

namespace sectio::measure {

/// Frames [first, last) that hold one note.
struct NoteSpan {
    std::size_t first = 0;
    std::size_t last = 0;   ///< the frame after it; beyond its track where the sound ends with it
    bool continues = false; ///< what lies before it was the same note
    bool struck = false;    ///< it begins with a growth of the sound, or after silence
    std::vector<TrackFrame> track;
};

/// Cuts the track into notes as it comes in. A note ends where there is no pitch for two frames,
/// where the pitch leaves for another by more than 70 cents for two frames or by more than 30 for
/// five (more than a vibrato stays away), and where the sound, having stopped growing, grows by 5
/// dB within two frames: a string struck again, to which the frames before that have its pitch
/// already belong too. What lasts longer than `most_frames` is handed on
/// in pieces.
class NoteSpans {
  public:
    /// `pitch_leads`: whether frames take in their pitch from further ahead than their level, as
    /// they do but over a drone.
    explicit NoteSpans(std::size_t most_frames, bool pitch_leads = true)
        : most_frames_(most_frames), pitch_leads_(pitch_leads) {}

    /// Takes the next frame; gives the note that ends before it, if any.
    std::optional<NoteSpan> push(const TrackFrame& frame);
    /// The next of the last notes, until none is left. The one that has a pitch at the end lasts
    /// for `after` frames more, whose middles lie too near to the end of the sound for frames of
    /// their own; so one frame away is a note by then.
    std::optional<NoteSpan> finish(std::size_t after = 0);
    /// First frame that a note to come may still hold.
    std::size_t first_open() const { return open_.track.empty() ? next_ : open_.first; }

  private:
    bool still_rising() const;
    bool grown(const TrackFrame& frame) const;
    bool watch_level(const TrackFrame& frame);
    void watch_pitch(const TrackFrame& frame);
    std::size_t begun_before(const TrackFrame& struck) const;
    std::optional<NoteSpan> add(const TrackFrame& frame);
    double centre_cents() const;
    std::optional<NoteSpan> close(std::size_t keep_back, bool continues, bool struck);

    std::size_t most_frames_;
    bool pitch_leads_;
    std::size_t next_ = 0;
    NoteSpan open_;
    std::size_t gap_ = 0;                ///< frames without pitch at the end of open_
    std::size_t far_ = 0, slightly_ = 0; ///< frames away from the pitch there, in one direction
    std::size_t early_ = 0;              ///< frames of open_ from before it was struck
    std::deque<float> levels_;           ///< of the last frames
    int side_ = 0;
};

} // namespace sectio::measure
