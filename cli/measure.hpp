#pragma once
/// @file
/// What the subcommands of `sectio measure` share.

#include "answer.hpp"

#include <sectio/interval/pitch.hpp>
#include <sectio/scale/pitch_list.hpp>

#include <optional>
#include <string>

namespace sectio::cli {

/// Ends a measurement: prints its page, or writes it; into a .toml file as a scale.
void answer_measured(const PitchList& list, const page::Page& page, const CommonOptions& options,
                     const Command& command);

/// --period as written; nothing for a set that does not repeat.
std::optional<Interval> period_option(const std::string& text);
inline constexpr const char* period_help =
    "of the scale that is made: 2/1 brings all pitches into one octave; else none";

/// Where the answer goes to another program as text, it is followed by what that program can read.
void hand_on(const std::string& text, const CommonOptions& options);

// One a kind of measurement; each adds a subcommand that runs from its callback.
void add_measure_frets(Command& measure);
void add_measure_pitches(Command& measure);
void add_measure_recording(Command& measure);

} // namespace sectio::cli
