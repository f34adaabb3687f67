#pragma once
/// @file
/// Private to lib/measure: sound goes in piece by piece, notes come out.

#include <sectio/measure/decimator.hpp>
#include <sectio/measure/loudest_moment.hpp>
#include <sectio/measure/note_meter.hpp>
#include <sectio/measure/note_spans.hpp>
#include <sectio/measure/pitch_path.hpp>
#include <sectio/measure/recording.hpp>

namespace sectio::measure {

/// Holds no more sound than the open note and the second that is undecided.
class Listener {
  public:
    /// Adds to `recording`, whose rate is known.
    explicit Listener(Recording& recording, const Drone& drone = {}, bool partials = false);

    void feed(std::span<const float> samples);
    void finish();

  private:
    void look_at_peaks(std::span<const float> samples);
    void analyse();
    void take(const TrackFrame& frame);
    std::optional<double> onset(double start_s, const NoteSpan& span) const;
    double arrived(const RecordedNote& note, const NoteSpan& span) const;
    RecordedNote placed(const NoteSpan& span) const;
    std::span<const float> sound_of(const RecordedNote& note, bool continues) const;
    std::span<const float> sound_before(const RecordedNote& note) const;
    NotePitch pitch_of(const RecordedNote& note, const NoteSpan& span);
    bool goes_on(const RecordedNote& note, const NoteSpan& span);
    bool keep(RecordedNote note, const NoteSpan& span, double sounded_to_s, bool arrives);
    void measure(const NoteSpan& span);
    void forget();
    void list_loudest();

    Recording& recording_;
    bool partials_;
    std::size_t factor_;
    double rate_; ///< after decimation
    Decimator decimator_;
    FrameAnalyser analyser_;
    PitchPath path_;
    NoteSpans spans_;
    NoteMeter meter_;
    std::vector<float> sound_; ///< from the sample forgotten_ on
    std::size_t forgotten_ = 0;
    std::size_t analysed_ = 0;          ///< frames
    std::size_t at_peak_ = 0, run_ = 0; ///< samples at the largest value, and how many in a row
    double drone_most_;                 ///< mean square of the drone at its loudest
    double sounded_to_s_ = -1;          ///< end of the last span, whatever became of it
    bool slight_ = false;               ///< whether the last note is short and has no attack
    std::size_t taken_ = 0;
    LoudestMoment loudest_;
};

} // namespace sectio::measure
