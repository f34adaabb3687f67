#pragma once
/// @file
/// Private to lib/measure: which spans of a track are notes, and which belong to another or to
/// none.

#include <sectio/measure/note_spans.hpp>
#include <sectio/measure/recording.hpp>

#include <optional>
#include <span>
#include <vector>

namespace sectio::measure {

/// The cents of the frames with a pitch, without the outermost ones, which hold the neighbours'
/// sound too; but nothing follows the note with which the sound ends.
std::vector<double> voiced_cents(const NoteSpan& span);

/// The pitch an octave lower or higher where the partials say so.
NotePitch in_octave_of(const NotePitch& by_partials, NotePitch by_periods);

/// Whether four frames of five have one pitch, and most so clearly that no other note as loud as a
/// twentieth can sound with it: a struck string whose blow rings, a reed beside one of its octave.
bool is_periodic(const std::vector<TrackFrame>& track, double centre);

/// Whether a clear frame and one beside it, `step_s` later, have one pitch, which moves less than
/// the slowest glide does: a note, however short, and no piece of the way between two.
bool keeps_pitch(const std::vector<TrackFrame>& track, double step_s);

/// Whether the partials keep to one pitch, wherever the coarse look went: it hears the common
/// multiples of the periods of a bar, and noise.
bool is_steady(const NotePitch& by_partials);

double cents_apart(const RecordedNote& a, const RecordedNote& b);

/// Two pieces of one note: weighted by their doubts, and no surer than they agree.
void join(RecordedNote& note, const RecordedNote& next);

/// The longer piece is hardly touched by what it met, and is the surer one.
void extend(RecordedNote& note, const RecordedNote& next);

/// Whether the track left a note and came back to it: what follows at once, was not struck and lies
/// nearer than any new note without an attack does is that note. Frames in which two notes meet
/// make such cuts.
bool comes_back(const RecordedNote& note, const NoteSpan& span, const RecordedNote& before);

/// Roughly the pitch, in Hz, of what goes on at once after a note, was not struck, and is softer
/// and lower than that; else 0. An octave up in one stroke brings no new partials, and is a note;
/// what is new in less than a quarter of a second (our choice) does not show.
double lower_hz(const RecordedNote& note, const NoteSpan& span,
                const std::vector<RecordedNote>& notes);

/// What rings on after a note, or is so soft beside the others, is no note of its own.
bool is_tail(const RecordedNote& note, const NoteSpan& span, const RecordedNote* before);

/// The softer end of what was refused as several notes and sounded longer: of a bell the lowest
/// partial rings on alone.
bool is_rest(const RecordedNote& note, const NoteSpan& span,
             const std::vector<RecordedNote>& refused);

/// What is so short and follows at once on what ended at `sounded_to_s` without being struck: a
/// piece of a glide, or a note that is softer than the one before it.
bool is_between(const RecordedNote& note, const NoteSpan& span, double sounded_to_s);

/// Whether the rise of a note begins before a piece of its pitch ends: that is its beginning, which
/// was heard before the sound had grown, as of a soft attack.
bool begins_within(const RecordedNote& note, const RecordedNote& before);

/// Whether what a note begins with is louder than `power`, a mean square, by two decibels.
bool is_louder(std::span<const float> sound, double rate, double power);

/// The drone's own string, struck again, where the note is not louder than all of it ever is; or a
/// moment at which it was taken for a note.
bool is_drone(const RecordedNote& note, const NoteSpan& span, const std::vector<DronePitch>& drone,
              bool louder);

/// What is left of the last note where it lies on the drone's partials and sinks below them: it
/// goes on at once, and softer, at a whole multiple of its pitch that is badly known.
bool is_covered_rest(const RecordedNote& note, const NoteSpan& span,
                     const std::vector<RecordedNote>& notes, const std::vector<DronePitch>& drone,
                     double sounded_to_s);

/// Takes out and gives what is so much softer than notes usually are: strings that ring on alone,
/// and over a drone what is left of it.
std::vector<RecordedNote> take_out_soft(std::vector<RecordedNote>& notes, double softer_db);

/// When the sound grows, in seconds, if it does by 3 dB: the powers of one period of `hz` each rise
/// for good above a hundredth of the greatest and twice the least.
std::optional<double> rise_in(std::span<const float> sound, double rate, double hz);

/// When the pitch, having left another, comes to `hz`, in frames of the track up to the one given,
/// which lies on it: where the straight line through the middle of its way there meets it; where it
/// jumps, half way. Nothing where it comes from no other pitch.
std::optional<double> arrival_in(std::span<const TrackFrame> track, std::size_t settled, double hz);

} // namespace sectio::measure
