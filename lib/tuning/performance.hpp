#pragma once
/// @file
/// Music that is to sound: notes with exact pitches in ticks, and what else its file says. A score
/// and a MIDI file become this value; perform.hpp plays it.

#include <sectio/interval/pitch.hpp>
#include <sectio/score/annotation.hpp>
#include <sectio/tuning/midi_file.hpp>

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace sectio::tuning {

struct PlayedNote {
    midi::Ticks begin = 0, end = 0;
    std::uint32_t pitch = 0; ///< in Performance::pitches
    std::uint16_t instrument = 0;
    std::uint8_t key = 0; ///< that the file says; percussion keeps it
    std::uint8_t velocity = 90, release = 64;
};

/// A channel message other than a note's, of one instrument.
struct PlayedMessage {
    std::uint16_t instrument = 0;
    midi::Event event;
    int bend_range = 200; ///< cents of a full pitch bend of the instrument at that time
};

struct Instrument {
    std::string name;
    std::optional<int> channel; ///< of the MIDI file that it comes from
    bool percussion = false;    ///< plays on channel 10, where keys are no pitches
};

struct Performance {
    midi::TimeBase time_base;
    std::vector<midi::Track> words; ///< events that are for no channel: tempo, texts, marks
    std::vector<Instrument> instruments;
    std::vector<PlayedNote> notes;       ///< by their beginnings
    std::vector<PlayedMessage> messages; ///< by their times
    std::vector<Pitch> pitches;
    midi::Ticks end = 0;
    /// Notes that the tuning lacks; they sound in 12 equal steps.
    std::vector<score::Unmatched> unmatched;
    std::string cure; ///< what may be done about them, in a sentence
    score::UnmatchedNames names;
    std::map<std::string, std::size_t> left_out; ///< by the reason
    std::size_t begun_bent = 0;                  ///< notes that begin while their file bends them
};

/// The score with its repeats and endings played, ties as one note, tempo, programs and loudness as
/// far as the score says them for playing. Grace notes take at most half of the note that they
/// stand before. Da capo and dal segno are not followed, which `left_out` says.
/// @throws Error performance_too_long
Performance performance_of(const score::Score& score, const score::ReadingChoice& reading,
                           const score::NoteTuning& tuning, const Pitch& a4);

/// A MIDI file's keys as the tuning has them. A key has no spelling: it is tried as it is usually
/// spelled, and by its other names where the tuning lacks that.
/// @throws Error perform_pieces for a file of format 2
Performance performance_of(const midi::File& file, const score::NoteTuning& tuning,
                           const Pitch& a4);

/// Moves every pitch by `by`.
void transpose(Performance& performance, const Interval& by);

} // namespace sectio::tuning
