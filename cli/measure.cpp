// sectio measure: an instrument's own pitches, from frets, a tuner's readings or recordings.

#include "measure.hpp"

namespace sectio::cli {

void add_measure(CLI::App& app) {
    CLI::App* command = app.add_subcommand(
        "measure", "an instrument's own pitches: from frets, a tuner's readings, or recordings");
    command->require_subcommand(1);
    add_measure_recording(*command);
}

} // namespace sectio::cli
