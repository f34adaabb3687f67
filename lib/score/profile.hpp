#pragma once
/// @file
/// What a score says of the scale it is in: how long each pitch sounds, and the course of the tune.

#include <sectio/interval/interval.hpp>
#include <sectio/score/reading.hpp>
#include <sectio/score/written.hpp>

#include <cstddef>
#include <vector>

namespace sectio::score {

/// One written pitch of a score and its weight.
struct WeightedPitch {
    WrittenPitch written;
    Interval above_c4; ///< by the written measure itself: keys of 12 equal steps, or commas of 53
    Beats duration;    ///< all its notes together, in quarter notes
    std::size_t count = 0;
};

/// One note of the tune.
struct TuneNote {
    std::size_t pitch; ///< in ScoreProfile::pitches
    Beats onset, duration;
};

struct ScoreProfile {
    Reading reading;
    std::vector<WeightedPitch> pitches; ///< all parts, rising
    /// The highest notes of the first part that has any, in order; grace and hidden notes left out.
    /// The first and the last are the tune's first and final notes.
    std::vector<TuneNote> tune;
    std::size_t left_out = 0; ///< notes whose pitch could not be read
};

/// Written pitches, as the player reads them: transposition moves no interval.
ScoreProfile profile_of(const Score& score, const ReadingChoice& choice = {});

/// Above C4, by the alteration's own measure: 12 equal steps, or 53 commas with C at 0, D at 9 ….
Interval above_c4(const WrittenPitch& pitch);

} // namespace sectio::score
