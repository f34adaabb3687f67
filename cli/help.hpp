#pragma once
/// @file
/// The text of --help, and what is said to a command that does not exist.

#include <CLI/CLI.hpp>

#include <string>
#include <vector>

namespace sectio::cli {

/// Of `app`, a command or the whole: what it does, how it is called, each argument and option, and
/// an example.
std::string help_text(const CLI::App& app);

/// "sectio measure frets".
std::string called(const CLI::App& app);
/// How it is called: "sectio measure frets D… [options]".
std::string usage(const CLI::App& app);
/// An option as it is written, "--tonic TONIC", "--as words|lyric"; an argument by its name.
std::string name_of(const CLI::Option& option);
/// A call that works as it stands; empty where there is none.
std::string example_of(const CLI::App& app);

/// The names of its commands, and of its options: "--out".
std::vector<std::string> command_names(const CLI::App& app);
std::vector<std::string> option_names(const CLI::App& app);

/// The one of `names` that `word` is a beginning or a misspelling of; else empty.
std::string like(const std::vector<std::string>& names, const std::string& word);

} // namespace sectio::cli
