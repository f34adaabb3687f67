#pragma once
/// @file
/// When the ticks of a MIDI file sound. Source: "Standard MIDI Files 1.0" (RP-001), set tempo and
/// division.

#include <sectio/base/number.hpp>
#include <sectio/tuning/midi_file.hpp>

#include <vector>

namespace sectio::midi {

/// Ticks as times in seconds: exact, since a tempo is a whole number of microseconds. Before the
/// first tempo a quarter note is half a second.
class TempoMap {
  public:
    /// In formats 0 and 1 the tempos of all tracks hold for all; in format 2 the tempos of the
    /// track `piece` hold for it alone.
    explicit TempoMap(const File& file, std::size_t piece = 0);

    /// Seconds from the start. `time` >= 0.
    Rational seconds(Ticks time) const;

  private:
    struct Stretch {
        Ticks begin;
        Rational start; ///< seconds
        Rational tick;  ///< seconds
    };
    std::vector<Stretch> stretches_; ///< the first begins at 0
};

} // namespace sectio::midi
