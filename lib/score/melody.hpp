#pragma once
/// @file
/// The tune of a score, for identification: its pitches by the written measure, how long they
/// sound, where its phrases end.

#include <sectio/scale/melody.hpp>
#include <sectio/score/reading.hpp>
#include <sectio/score/written.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace sectio::score {

/// Above the written C4, by the alteration's own measure: 12 equal steps, or commas of 53 with C at
/// 0, D at 9, E at 18 ….
Interval above_c4(const WrittenPitch& pitch);

struct ScoreMelody {
    Melody melody;
    Reading reading;
    std::size_t left_out = 0; ///< notes whose pitch could not be read; grace notes are not counted
    std::vector<std::string> remarks{}; ///< what a reader of an answer should know of it
};

/// The upper line of the first part that has pitches: of notes that sound together the highest.
/// Written pitches, as the player reads them: transposition moves no interval. Weights are quarter
/// notes. A phrase ends before a rest, at a fermata, breath mark or caesura, and at a final bar
/// line.
ScoreMelody melody_of(const Score& score, const ReadingChoice& choice = {});

} // namespace sectio::score
