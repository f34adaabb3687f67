#pragma once
/// @file
/// What the commands share that play a score or a MIDI file.

#include "score_options.hpp"

#include <sectio/tuning/performance.hpp>

namespace sectio::cli {

/// Adds --transpose.
void add_transpose(Command& command, ScoreOptions& options);
/// The interval of --transpose; 1/1 where it is not given. @throws Error for what is none
Interval transposition_of(const ScoreOptions& options);

/// The file that SCORE names, transposed: a MIDI file, known by its first bytes, or a score.
/// @throws Error those of reading the file, and of performance_of()
tuning::Performance performance_of(const ScoreOptions& options, const ChosenTuning& chosen);

} // namespace sectio::cli
