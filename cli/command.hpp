#pragma once
/// @file
/// What the commands share: their options and how they end.

#include "output_kinds.hpp"

#include <sectio/base/today.hpp>
#include <sectio/division/division.hpp>
#include <sectio/interval/interval.hpp>
#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/comparison.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/scale/scale.hpp>

#include <CLI/CLI.hpp>

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
void add_common_options(CLI::App& command, CommonOptions& options, OutputKinds kinds = {});
/// Adds an option that names a file to write.
void add_output(CLI::App& command, const std::string& name, std::string& file,
                const std::string& help, const OutputKinds& kinds);

/// Refuses a count that is no whole number from 1 up.
CLI::Validator from_one_up();

/// `12,53,13(3/1)` as divisions. @throws Error with the place in the argument
std::vector<EqualDivision> parse_divisions(const std::string& text);

/// What SCALE may be, for --help.
inline constexpr const char* scale_help =
    "a catalogue id, a number of equal steps, a file (scale, instrument, table, "
    "JSON), - for standard input, or intervals or pitches "
    "separated by commas, such as 9/8,5/4 or 440Hz,171±3c";

/// SCALE as written on the command line.
LoadedScale scale_argument(const std::string& text);

/// Prints `text` on standard output as it is.
void print(const std::string& text);

// One a command; each adds a subcommand that runs from its callback.
void add_commas(CLI::App& app);
void add_compare(CLI::App& app);
void add_desk(CLI::App& app);
void add_divisions(CLI::App& app);
void add_interval(CLI::App& app);
void add_catalogue(CLI::App& app);
void add_identify(CLI::App& app);
void add_sheet(CLI::App& app);
void add_annotate(CLI::App& app);
void add_frets(CLI::App& app);
void add_perform(CLI::App& app);
void add_tuning(CLI::App& app);
void add_listen(CLI::App& app);
void add_measure(CLI::App& app);
void add_samples(CLI::App& app);

} // namespace sectio::cli
