#pragma once
/// @file
/// What the commands share: their options and how they end.

#include "arguments.hpp"
#include "output_kinds.hpp"

#include <sectio/base/today.hpp>
#include <sectio/division/division.hpp>
#include <sectio/interval/interval.hpp>
#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/comparison.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/scale/scale.hpp>

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace sectio::cli {

/// Digits after the point where nothing else is asked.
inline constexpr int default_digits = 3;

/// Options that every command has.
struct CommonOptions {
    bool json = false;
    int digits = default_digits;
    std::string out;
    OutputKinds kinds; ///< of --out
};

/// Adds --json, --digits and, where a file is written by it, --out.
void add_common_options(Command& command, CommonOptions& options, OutputKinds kinds = {});
/// Adds an option that names a file to write.
Option* add_output(Command& command, const std::string& name, std::string& file,
                   const std::string& help, const OutputKinds& kinds);

/// `12,53,13(3/1)` as divisions. @throws Error with the place in the argument
std::vector<EqualDivision> parse_divisions(const std::string& text);

/// What SCALE may be, for --help.
inline constexpr const char* scale_help =
    "a catalogue id, a number of equal steps, a file (scale, instrument, table, "
    "JSON), - for standard input, or intervals or pitches "
    "separated by commas, such as 9/8,5/4 or 440Hz,171±3c";

/// SCALE as written on the command line.
LoadedScale scale_argument(const std::string& text);

/// Prints `text` on standard output as it is; on standard error where an output has taken that.
void print(const std::string& text);

// One a command; each adds a subcommand that runs from its callback.
void add_commas(Command& app);
void add_compare(Command& app);
void add_desk(Command& app);
void add_divisions(Command& app);
void add_interval(Command& app);
void add_catalogue(Command& app);
void add_identify(Command& app);
void add_sheet(Command& app);
void add_annotate(Command& app);
void add_frets(Command& app);
void add_perform(Command& app);
void add_tuning(Command& app);
void add_listen(Command& app);
void add_measure(Command& app);
void add_samples(Command& app);

} // namespace sectio::cli
