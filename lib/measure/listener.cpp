#include <sectio/measure/listener.hpp>
#include <sectio/measure/note_sieve.hpp>
#include <sectio/measure/partials.hpp>
#include <sectio/measure/statistics.hpp>
#include <sectio/measure/vibrato.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace sectio::measure {

namespace {

constexpr double most_piece_s = 12;
/// Sound before the open note that is kept: the longest windows of notes are of this length.
constexpr double kept_before_s = 0.6;
constexpr double soft_db = 20, soft_over_drone_db = 18;
constexpr std::size_t loudest_frames = 40, loudest_listed_frames = 400;
constexpr std::size_t least_note_frames = 3;
/// Values in a row at the very top of a recording that tell of clipping.
constexpr std::size_t clipped_run = 4;
/// A pitch that moves more than this is followed by its periods, unless its phases are steady; up
/// to the second, noise may only make it seem to swing.
constexpr double moving_cents = 15, seeming_to_swing_cents = 8;
/// A pitch that is known no better than this is none: it wanders from one key to others.
constexpr double most_half_width_cents = 100;
/// A piece so short that is known no better moves: voices come to a note from below.
constexpr double scoop_s = 0.2, scoop_half_width_cents = 15;
/// What seems to pass is a note where its partials keep to one pitch for longer than a syllable,
/// or as a quick note that is struck.
constexpr double least_staying_s = 0.25, least_struck_s = 0.07;

} // namespace

Listener::Listener(Recording& recording, const Drone& drone, bool partials)
    : recording_(recording), partials_(partials), factor_(decimation_for(recording.rate)),
      rate_(static_cast<double>(recording.rate) / static_cast<double>(factor_)),
      decimator_(factor_), analyser_(rate_, drone), path_(analyser_.frame_size() / analyser_.hop()),
      spans_(static_cast<std::size_t>(most_piece_s * rate_ / static_cast<double>(analyser_.hop())),
             drone.empty()),
      meter_(rate_, usable_band(factor_) * rate_, drone), drone_most_(drone.most()),
      loudest_(partials ? loudest_listed_frames : loudest_frames) {
    recording_.drone = drone.pitches;
    recording_.track_start_s = static_cast<double>(analyser_.frame_size()) / 2 / rate_;
    recording_.track_step_s = static_cast<double>(analyser_.hop()) / rate_;
}

void Listener::look_at_peaks(std::span<const float> samples) {
    for (const float sample : samples) {
        const double size = std::abs(static_cast<double>(sample));
        if (size > recording_.peak)
            recording_.peak = size, at_peak_ = 0, run_ = 1;
        else
            run_ = size == recording_.peak && size > 0 ? run_ + 1 : 0;
        at_peak_ += run_ == clipped_run ? clipped_run : run_ > clipped_run ? 1 : 0;
    }
}

void Listener::feed(std::span<const float> samples) {
    taken_ += samples.size();
    look_at_peaks(samples);
    decimator_.feed(samples, sound_);
    analyse();
}

void Listener::analyse() {
    for (;;) {
        const std::size_t at = analysed_ * analyser_.hop() - forgotten_;
        if (at + analyser_.frame_size() > sound_.size())
            break;
        const std::size_t whole =
            (sound_.size() - at - analyser_.frame_size()) / analyser_.hop() + 1;
        const std::size_t count = std::min(whole, lanes);
        const auto frames = analyser_.analyse(sound_.data() + at, count);
        for (std::size_t i = 0; i < count; ++i) {
            loudest_.watch(frames[i].level,
                           std::span<const float>(sound_).subspan(
                               analysed_ * analyser_.hop() - forgotten_, analyser_.hop()));
            if (const auto decided = path_.push(frames[i]))
                take(*decided);
            ++analysed_;
        }
    }
    forget();
}

/// The partials of the loudest sound where no note has a pitch there, as of bells; what rings on of
/// it is no note.
void Listener::list_loudest() {
    constexpr double attack_s_at_most = 0.3; // and that within a frame lies in its first half
    RecordedNote loudest;
    loudest.pitch.trouble = NoteTrouble::several_notes;
    loudest.start_s = static_cast<double>(loudest_.frame() * analyser_.hop()) / rate_;
    loudest.end_s = loudest.start_s + static_cast<double>(loudest_.sound().size()) / rate_;
    const auto has = [&](const RecordedNote& n) {
        return n.start_s - attack_s_at_most < loudest.start_s && loudest.start_s < n.end_s;
    };
    const auto sound = std::span<const float>(loudest_.sound())
                           .subspan(std::min(loudest_.sound().size(), analyser_.frame_size() / 2));
    std::vector<RecordedNote>& notes = recording_.notes;
    const auto note = std::find_if(notes.begin(), notes.end(), has);
    if (note != notes.end() && note->start_s > loudest.start_s)
        note->partials = meter_.partials(sound, note->pitch);
    if (note != notes.end())
        return;
    loudest.partials = meter_.partials(sound, loudest.pitch);
    if (loudest.partials.empty())
        return;
    std::erase_if(notes, [&](const RecordedNote& n) {
        return n.start_s > loudest.start_s && n.start_s < loudest.end_s;
    });
    recording_.unpitched = std::move(loudest);
}

void Listener::take(const TrackFrame& frame) {
    recording_.track.push_back(frame);
    if (const auto span = spans_.push(frame))
        measure(*span);
}

void Listener::forget() {
    const std::size_t first = spans_.first_open() * analyser_.hop(),
                      before = static_cast<std::size_t>(kept_before_s * rate_);
    const std::size_t keep = first - std::min(first, before);
    const std::size_t drop = std::min(keep - std::min(keep, forgotten_), sound_.size());
    if (drop < static_cast<std::size_t>(rate_))
        return;
    sound_.erase(sound_.begin(), sound_.begin() + static_cast<std::ptrdiff_t>(drop));
    forgotten_ += drop;
}

/// The moment from which the sound grows, near the coarse one, where it does.
std::optional<double> Listener::onset(double start_s, const NoteSpan& span) const {
    constexpr double before_s = 0.1, after_s = 0.13, part = 0.75; // a next note rises later
    const double hop_s = recording_.track_step_s;
    const double hz = static_cast<double>(span.track[span.track.size() / 2].hz);
    const double first_s = static_cast<double>(forgotten_) / rate_;
    const double from_s = std::max(start_s - before_s, first_s);
    const double to_s =
        start_s + std::min(after_s, part * static_cast<double>(span.track.size()) * hop_s);
    const auto from = std::min(sound_.size(), static_cast<std::size_t>((from_s - first_s) * rate_));
    const auto to = std::min(sound_.size(), static_cast<std::size_t>((to_s - first_s) * rate_));
    const auto rise = rise_in(std::span(sound_).subspan(from, to - from), rate_, hz);
    return rise ? std::optional(from_s + *rise) : std::nullopt;
}

/// Where a note that was not struck has come from another pitch: when it has arrived.
double Listener::arrived(const RecordedNote& note, const NoteSpan& span) const {
    const std::size_t settled = span.first + span.track.size() / 2;
    const auto frames = arrival_in(recording_.track, settled, note.pitch.hz);
    if (!frames)
        return note.start_s;
    const double at_s = recording_.track_start_s + *frames * recording_.track_step_s;
    return std::abs(at_s - note.start_s) < 0.15 ? at_s : note.start_s;
}

/// The note's time and level; its pitch is still to be found.
RecordedNote Listener::placed(const NoteSpan& span) const {
    RecordedNote note;
    const auto seconds = [&](std::size_t frame) {
        return recording_.track_start_s
               + (static_cast<double>(frame) - 0.5) * recording_.track_step_s;
    };
    note.start_s = seconds(span.first);
    note.end_s = seconds(span.last);
    double power = 0;
    for (const TrackFrame& frame : span.track)
        power += static_cast<double>(frame.level) / static_cast<double>(span.track.size());
    note.level_db = 10 * std::log10(std::max(power, 1e-12));
    return note;
}

/// The note's sound, without its attack where it has one.
std::span<const float> Listener::sound_of(const RecordedNote& note, bool continues) const {
    const auto sample = [&](double s) {
        return static_cast<std::size_t>(std::max(0.0, s * rate_)) - forgotten_;
    };
    const std::size_t from = sample(note.start_s + (continues ? 0 : attack_s));
    const std::size_t to = std::min(sample(note.end_s), sound_.size());
    return std::span<const float>(sound_).subspan(from, to > from ? to - from : 0);
}

/// What sounded before the note, up to where it may begin.
std::span<const float> Listener::sound_before(const RecordedNote& note) const {
    constexpr double apart_s = 0.01;
    const double end = (note.start_s - apart_s) * rate_ - static_cast<double>(forgotten_);
    const auto count = static_cast<std::size_t>(std::max(0.0, end));
    return std::span<const float>(sound_).first(std::min(count, sound_.size()));
}

NotePitch Listener::pitch_of(const RecordedNote& note, const NoteSpan& span) {
    const std::vector<double> cents = voiced_cents(span);
    if (span.last - span.first < least_note_frames || cents.empty()) {
        NotePitch short_one;
        short_one.trouble = NoteTrouble::too_short;
        return short_one;
    }
    const auto vibrato = vibrato_of(cents, recording_.track_step_s);
    const double centre = median(cents), deviation = robust_deviation(cents, centre);
    const NotePitch by_periods =
        vibrato ? swinging_pitch(*vibrato)
                : moving_pitch(span.track, cents, centre, deviation, recording_.track_step_s);
    const bool periodic = is_periodic(span.track, centre);
    const NotePitch by_partials =
        meter_.measure(sound_of(note, span.continues), std::exp2(centre / 1200), periodic,
                       span.continues ? std::span<const float>() : sound_before(note));
    if (periodic && by_partials.half_width_cents > most_half_width_cents)
        return by_periods;
    const bool swings = vibrato && vibrato->depth_cents > seeming_to_swing_cents;
    const bool counts = !vibrato && deviation <= moving_cents
                            ? by_partials.trouble != NoteTrouble::none || by_partials.partials > 0
                            : !swings && is_steady(by_partials);
    return counts ? by_partials : in_octave_of(by_partials, by_periods);
}

/// Whether it is the note before it, which decays to what rang below it already.
bool Listener::goes_on(const RecordedNote& note, const NoteSpan& span) {
    const double hz = lower_hz(note, span, recording_.notes);
    return hz > 0 && !meter_.brings_new(sound_of(note, true), hz, sound_before(note));
}

/// Puts the note to the others, or to the last one where it belongs to that; gives whether it has
/// come to stand for itself.
bool Listener::keep(RecordedNote note, const NoteSpan& span, double sounded_to_s, bool arrives) {
    std::vector<RecordedNote>& notes = recording_.notes;
    if (slight_ && begins_within(note, notes.back()))
        notes.back() = note;
    else if (is_covered_rest(note, span, notes, recording_.drone, sounded_to_s))
        notes.back().end_s = note.end_s;
    else if (span.continues && !notes.empty() && cents_apart(note, notes.back()) < moving_cents)
        join(notes.back(), note);
    else if (!notes.empty() && comes_back(note, span, notes.back()))
        extend(notes.back(), note);
    else {
        if (arrives)
            note.start_s = arrived(note, span);
        notes.push_back(note);
    }
    const bool itself = notes.back().start_s == note.start_s;
    if (partials_ && itself)
        notes.back().partials = meter_.partials(sound_of(note, span.continues), note.pitch);
    return itself;
}

void Listener::measure(const NoteSpan& span) {
    RecordedNote note = placed(span);
    const auto attack = span.continues ? std::nullopt : onset(note.start_s, span);
    note.start_s = attack.value_or(note.start_s);
    const std::vector<RecordedNote>& notes = recording_.notes;
    if (is_tail(note, span, notes.empty() ? nullptr : &notes.back())
        || is_rest(note, span, recording_.refused))
        return;
    const double sounded_to_s = std::exchange(sounded_to_s_, note.end_s);
    const bool glides = is_passing(voiced_cents(span), recording_.track_step_s),
               between = is_between(note, span, sounded_to_s),
               slight = !glides && !attack && between;
    if (!attack && goes_on(note, span)) {
        recording_.notes.back().end_s = note.end_s;
        return;
    }
    note.pitch = pitch_of(note, span);
    const double seconds = note.end_s - note.start_s;
    const bool stays =
        (is_steady(note.pitch) && seconds > (attack || slight ? least_struck_s : least_staying_s))
        || (!glides && seconds > least_struck_s && note.pitch.trouble == NoteTrouble::none
            && note.pitch.partials > 0 && keeps_pitch(span.track, recording_.track_step_s));
    const bool is_scoop = seconds < scoop_s && note.pitch.half_width_cents > scoop_half_width_cents;
    if (((glides || between) && !stays) || is_scoop
        || note.pitch.half_width_cents > most_half_width_cents) {
        recording_.gliding_s += note.end_s - note.start_s;
        return;
    }
    if (note.pitch.trouble != NoteTrouble::none)
        recording_.refused.push_back(note);
    else if (!is_drone(note, span, recording_.drone,
                       is_louder(sound_of(note, false), rate_, drone_most_)))
        slight_ = keep(note, span, sounded_to_s, !attack && !span.continues) && slight;
}

void Listener::finish() {
    decimator_.finish(sound_);
    analyse();
    while (const auto frame = path_.finish())
        take(*frame);
    const std::size_t after = (analyser_.frame_size() - analyser_.hop()) / 2 / analyser_.hop();
    while (const auto span = spans_.finish(after))
        measure(*span);
    recording_.soft =
        take_out_soft(recording_.notes, recording_.drone.empty() ? soft_db : soft_over_drone_db);
    if (recording_.notes.empty())
        recording_.tonal = loudest_.tonal(rate_, usable_band(factor_) * rate_);
    if (partials_)
        list_loudest();
    recording_.seconds = static_cast<double>(taken_) / recording_.rate;
    recording_.clipped_s = static_cast<double>(at_peak_) / recording_.rate;
}

} // namespace sectio::measure
