#pragma once
/// @file
/// The whole command as one call.

namespace sectio::cli {

/// Does what `sectio ARGUMENTS…` is asked to do. Answers go to standard output and messages to
/// standard error. Returns the exit code: 0 done, 2 the request or the input is unusable, 3 a file
/// cannot be read or written, 4 undecided within the limits.
int run(int argc, char** argv);

} // namespace sectio::cli
