#pragma once
/// @file
/// How errors are told, and what the command ends with.

#include <sectio/base/error.hpp>

#include <string>
#include <vector>

namespace sectio::cli {

/// 0 where all is done, 2 for a request or input that is unusable, 3 for a file that cannot be read
/// or written, 4 for what is undecided within the limits.
enum class ExitCode { done = 0, unusable = 2, file_trouble = 3, undecided = 4 };

ExitCode exit_code(ErrorCode code);

/// Tells an error on standard error, as a line of text or as one line of JSON: `{"error": …}` with
/// `exit_code, id, what, piece, where{source, line, column}, cure`.
void tell(const Error& error, bool json);
/// The same for what is no Error of the library.
void tell(ExitCode code, const std::string& what, const std::string& cure, bool json);

/// From now on each error of this process is told as JSON.
void tell_errors_as_json();

/// Where parts of a request failed and the others are done: tells each error; the last, thrown,
/// ends the command with its exit code.
void end_with(const std::vector<Error>& failed, bool json);

} // namespace sectio::cli
