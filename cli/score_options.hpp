#pragma once
/// @file
/// What the commands that read scores share: how a score is read, and what tunes it.

#include "command.hpp"

#include <sectio/score/tuning.hpp>

namespace sectio::cli {

struct ScoreOptions {
    std::string score, scale, system, rest;
    std::string transpose; ///< of what plays the score
    TuningOptions tuning;
    std::string reading = "auto", signs = "auto", signature = "written";
};

/// Adds SCORE, which takes the files that `kinds` names, --scale, --system and the rest.
void add_score_options(Command& command, ScoreOptions& options, const std::string& kinds);
/// Adds --scale, --system, --rest, --tonic and --reference.
void add_tuning_choice(Command& command, ScoreOptions& options);
/// Adds how notes are read: --reading, --signs and --signature.
void add_reading_choice(Command& command, ScoreOptions& options);
/// Adds an option that takes one of `words`.
void add_words(Command& command, const std::string& name, std::string& value,
               const std::vector<std::string>& words, const std::string& help);

/// What tunes the notes.
struct ChosenTuning {
    std::unique_ptr<score::NoteTuning> tuning;
    Pitch a4;                           ///< that 12 equal steps count from
    std::optional<Interval> half_width; ///< of the widest measured degree
};

/// @throws Error no_tuning_given, two_tunings, rest_without_scale, unknown_system, and those of a
/// scale and its tonic
ChosenTuning tuning_of(const ScoreOptions& options);

score::ReadingChoice reading_of(const ScoreOptions& options);

} // namespace sectio::cli
