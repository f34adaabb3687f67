#pragma once
/// @file
/// The whole command as one call.

namespace sectio::cli {

class Command;

/// What the whole is for, in a line.
inline constexpr const char* purpose =
    "Exact intervals and scales, and how far an equal division carries them.";

/// Puts all commands with their options into `app`.
void add_commands(Command& app);

/// Does what `sectio ARGUMENTS…` is asked to do. Answers go to standard output and messages to
/// standard error. Returns the exit code: 0 done, 2 the request or the input is unusable, 3 a file
/// cannot be read or written, 4 undecided within the limits.
int run(int argc, char** argv);

} // namespace sectio::cli
