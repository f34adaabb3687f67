#pragma once
/// @file
/// Private to lib/tuning: grace notes of a bar, until it is known what they lead to.

#include <sectio/tuning/performance.hpp>

#include <cstdint>
#include <map>
#include <utility>
#include <vector>

namespace sectio::tuning {

class GraceNotes {
  public:
    /// Each is an eighth of a quarter note, which has `ticks`, or shorter.
    explicit GraceNotes(int ticks) : each_(ticks / 8) {}

    /// `note` begins where the note that it leads to is written.
    void add(std::uint16_t voice, const PlayedNote& note, bool in_chord);

    /// Plays those that lead to `note` in its first half at most; says how long they are, 0 where
    /// there are none.
    midi::Ticks place(std::uint16_t voice, const PlayedNote& note, std::vector<PlayedNote>& out);

    /// Plays the others, which a rest or no note follows in their bar, before their place.
    void flush(std::vector<PlayedNote>& out);

  private:
    struct Grace {
        PlayedNote note;
        bool in_chord; ///< sounds with the one before it
    };
    using Graces = std::vector<Grace>;

    static midi::Ticks count(const Graces& graces);
    static void play(const Graces& graces, midi::Ticks at, midi::Ticks each,
                     std::vector<PlayedNote>& out);

    midi::Ticks each_;
    std::map<std::pair<std::uint16_t, midi::Ticks>, Graces> waiting_; ///< by voice and place
};

} // namespace sectio::tuning
