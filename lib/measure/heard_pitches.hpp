#pragma once
/// @file
/// The pitches of an instrument or a melody, out of the notes of one or several recordings.

#include <sectio/measure/recording.hpp>

#include <optional>
#include <string>
#include <vector>

namespace sectio::measure {

/// A pitch and all the notes that have it.
struct HeardPitch {
    std::string label;
    double hz = 0;
    double half_width_cents = 0; ///< holds the truth 95 times of 100
    std::size_t notes = 0;
    double seconds = 0;
    double spread_cents = 0; ///< standard deviation of the notes, 0 for a single one
};

/// How a tonic was found.
enum class TonicBasis { asked, lowest, scale_start, scale_end, melody, drone };
std::string_view text(TonicBasis basis);

/// What was heard, put together.
struct Hearing {
    std::vector<Recording> recordings;
    std::vector<HeardPitch> pitches; ///< rising
    double tonic_hz = 0;
    double tonic_half_width_cents = 0; ///< of a drone's that is none of the pitches
    TonicBasis tonic_basis = TonicBasis::lowest;
    double tonic_probability = 1; ///< of TonicBasis::melody

    std::size_t note_count() const;
    /// More notes than a scale up and down has.
    bool is_melody() const { return note_count() > 2 * pitches.size() + 1; }
};

/// Notes that lie in one hill of the histogram of all notes are one pitch, unless their own doubts,
/// and the scatter that this recording's degrees have, leave a gap between them. The tonic is
/// `tonic_hz` where asked for; the lowest pitch of a drone; the first note of a rising scale, the
/// last of a falling one; a melody's likely tonic; the lowest pitch otherwise.
/// @throws Error nothing_heard where no recording has a note, note_not_measured
Hearing hear(std::vector<Recording> recordings, std::optional<double> tonic_hz = std::nullopt);

/// @throws Error note_not_measured where the frequency, the half width or the times of a note are
/// no finite numbers, as a program may have set them
void check_notes(const Recording& recording);
/// The same of a hearing, which has a pitch at least. @throws Error nothing_heard,
/// note_not_measured
void check_heard(const Hearing& hearing);

} // namespace sectio::measure
