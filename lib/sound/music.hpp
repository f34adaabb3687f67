#pragma once
/// @file
/// What a listener hears of a performance: a plucked string for each note, over drones if wanted.

#include <sectio/sound/loudness.hpp>
#include <sectio/tuning/performance.hpp>
#include <sectio/tuning/tempo_map.hpp>

#include <optional>
#include <vector>

namespace sectio::sound {

/// A string, from the pluck until it is damped.
struct MusicNote {
    midi::Ticks begin = 0, end = 0;
    std::uint32_t pitch = 0; ///< in Music::pitches, as the scale has it
    std::int32_t bend = 0;   ///< of the music's own at the pluck, in 8192ths of a cent
    std::uint16_t instrument = 0;
    double level = 1; ///< 0 … 1
};

/// The music's own bend, of all strings that sound on the instrument.
struct MusicBend {
    midi::Ticks at = 0;
    std::int32_t bend = 0; ///< 8192ths of a cent from the pitches of the scale
    std::uint16_t instrument = 0;
    std::size_t before = 0; ///< the place among the notes of the first one after it
};

struct Music {
    midi::TempoMap times;
    std::vector<MusicNote> notes; ///< by their beginnings
    std::vector<MusicBend> bends; ///< by their times
    std::vector<Pitch> pitches;
    std::vector<Pitch> drones;                   ///< from beginning to end
    std::map<std::string, std::size_t> left_out; ///< by the reason
    double swell_s = usual_swell_s;              ///< at the beginning
    Rational tempo = 1;                          ///< times that of the music itself

    /// Of a note at its beginning, with the music's own bend.
    Pitch pitch_of(const MusicNote& note) const;
    /// From the beginning.
    Rational seconds_at(midi::Ticks time) const { return times.seconds(time) / tempo; }
    /// From the beginning to the silence after the last note.
    Rational seconds() const;
    /// The frame that is nearest to a time; half way, the later one.
    std::int64_t frame(midi::Ticks time) const;
    std::int64_t frames() const;
};

/// The performance on strings. Loudness goes as the square of a note's velocity, which MIDI's own
/// synthesizers follow ("Downloadable Sounds Level 1", MIDI Manufacturers Association, from
/// memory). A damper pedal holds its notes and bends move them; what no string can do is counted
/// in `left_out`. It is played `tempo` times as fast.
/// @throws Error sound_pitch_out_of_range (of a drone), music_too_long, music_without_notes
Music music_of(const tuning::Performance& performance, const std::vector<Pitch>& drones = {},
               const Rational& tempo = 1);

/// How many times as fast: `75%` of the music's own tempo, or `60`, quarter notes a minute where it
/// begins. @throws Error tempo_unreadable, tempo_without_quarters
Rational parse_tempo(const std::string& text, const tuning::Performance& performance,
                     const Place& place = {});

} // namespace sectio::sound
