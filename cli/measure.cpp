// sectio measure: an instrument's own pitches, from frets, a tuner's readings or recordings.

#include "measure.hpp"

#include <sectio/base/file.hpp>
#include <sectio/base/file_access.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/scale/scale_file_text.hpp>

#include <fmt/format.h>
#include <unistd.h>

namespace sectio::cli {

std::optional<Interval> period_option(const std::string& text) {
    if (text == "none")
        return std::nullopt;
    const Place place{"--period", 0, 1};
    const Interval period = parse_interval(text, place, Catalogue::installed().names());
    if (period <= Interval())
        throw error(message::period_not_rising, text, place);
    return period;
}

void hand_on(const std::string& text, const CommonOptions& options) {
    if (prints_text() && !options.json && options.out.empty() && isatty(STDOUT_FILENO) == 0)
        print(fmt::format("\n{}\n\n{}", handed_on, text));
}

void answer_measured(const PitchList& list, const page::Page& page, const CommonOptions& options,
                     const Command& command) {
    if (ending(options.out) == scale_file.ending) {
        CommonOptions shown = options;
        shown.out.clear();
        write_whole(options.out, scale_file_text(to_scale(list)));
        if (options.json)
            answer(page, shown, command);
        return;
    }
    // One pitch alone is no scale. What cannot be one is refused before anything is written.
    const std::string scale = list.pitches.size() > 1 ? scale_file_text(to_scale(list)) : "";
    answer(page, options, command);
    if (!scale.empty())
        hand_on(scale, options);
}

void add_measure(Command& app) {
    Command* command = app.add_subcommand(
        "measure", "an instrument's own pitches: from frets, a tuner's readings, or recordings");
    command->require_subcommand();
    add_measure_frets(*command);
    add_measure_pitches(*command);
    add_measure_recording(*command);
}

} // namespace sectio::cli
