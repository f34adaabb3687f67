#pragma once
/// @file
/// The parts of `sectio measure`.

#include "command.hpp"

namespace sectio::cli {

// One a kind of measurement; each adds a subcommand that runs from its callback.
void add_measure_recording(CLI::App& measure);

} // namespace sectio::cli
