#pragma once
/// @file
/// What the commands share that play a score or a MIDI file.

#include "score_options.hpp"

#include <sectio/tuning/performance.hpp>

namespace sectio::cli {

/// The file that SCORE names: a MIDI file, known by its first bytes, or a score.
/// @throws Error those of reading the file, and of performance_of()
tuning::Performance performance_of(const ScoreOptions& options, const ChosenTuning& chosen);

} // namespace sectio::cli
