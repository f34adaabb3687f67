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

/// "; did you mean interval", where one of the commands of `app` is like `word`; else empty.
std::string like_command(const CLI::App& app, const std::string& word);

} // namespace sectio::cli
