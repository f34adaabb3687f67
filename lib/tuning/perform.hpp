#pragma once
/// @file
/// Music played into a MIDI file that sounds in its tuning on ordinary instruments.

#include <sectio/tuning/performance.hpp>
#include <sectio/tuning/tuning_message.hpp>

namespace sectio::tuning {

/// How notes are shared out over channels where pitch bend tunes them.
enum class ChannelUse {
    plain, ///< over all but channel 10; those of one bend and instrument share a channel
    zone,  ///< channel 1 manages, each note has a member channel of its own. Source: "MIDI
           ///< Polyphonic Expression" (M1-100-UM), MIDI Manufacturers Association
};

/// What tunes the notes.
enum class PerformBy { bend, tuning };

struct PerformOptions {
    ChannelUse channels = ChannelUse::plain;
    /// Semitones of a full pitch bend, 1 to 96, which the file tells the receiver. Where nothing is
    /// said 2, which receivers that do not listen have anyway; more where the music bends itself.
    std::optional<int> bend_range{};
    PerformBy by = PerformBy::bend;
    /// By tuning messages: octave_1, octave_2, note_change or bulk_dump. Where nothing is said
    /// octave_2 where the music needs no more tunings so, else note_change.
    std::optional<MessageKind> message{};
};

/// A note for which no channel was free: it sounds, at the pitch deviation of another note of its
/// instrument, or while the pitch of a pedalled note changes.
struct CrowdedNote {
    std::uint16_t instrument = 0;
    midi::Ticks at = 0;
    int key = 0;
    Interval error; ///< played pitch minus the right one
};

struct Performed {
    midi::File file;
    std::size_t notes = 0;              ///< that sound
    std::size_t channels = 0;           ///< that notes sound on
    Interval worst_error;               ///< largest of any note, not negative
    std::optional<MessageKind> message; ///< that tunes; none by bend
    std::size_t retunings = 0;          ///< by messages, while the music plays
    std::vector<CrowdedNote> crowded;
    std::map<std::string, std::size_t> left_out; ///< by the reason
};

/// @throws Error performance_index, perform_zone_instruments, perform_bend_range, perform_bend_only
Performed perform(const Performance& music, const PerformOptions& options = {});

} // namespace sectio::tuning
