#pragma once
/// @file
/// Files read whole within a limit, and written whole or not at all.

#include <cstddef>
#include <filesystem>
#include <functional>
#include <istream>
#include <string>
#include <string_view>

namespace sectio {

/// The bytes of a file of at most `most_bytes`.
/// @throws Error cannot_read, file_too_large
std::string read_whole(const std::filesystem::path& file, std::size_t most_bytes);

/// The same for a stream that errors call `name`.
/// @throws Error file_too_large, standard_input_again, cannot_read where it is standard input and
/// no file
std::string read_whole(std::istream& input, const std::string& name, std::size_t most_bytes);

/// Refuses a stream that was read to its end before. @throws Error standard_input_again
void check_unread(const std::istream& input, const std::string& name);

/// Writes `bytes` to a temporary beside `file` and, once they are on the disk, renames it, so that
/// the file is never half written, whatever happens; an existing file is replaced only then, and
/// keeps its permissions. A symbolic link stays, the file that it leads to is replaced. The rule of
/// CommandFiles holds.
/// @throws Error cannot_write, folder_takes_no_file, output_is_input, outputs_are_one
void write_whole(const std::filesystem::path& file, std::string_view bytes);

/// Makes `folder` and those above it, where there are none. @throws Error cannot_write
void make_folder(const std::filesystem::path& folder);

/// `text` without the byte order mark that some programs put before UTF-8.
std::string_view without_byte_order_mark(std::string_view text);

/// Takes the next bytes of a file.
using Sink = std::function<void(std::string_view)>;

/// The same for a file that is never in memory as a whole: `produce` hands its bytes to the sink
/// piece by piece.
void write_whole(const std::filesystem::path& file,
                 const std::function<void(const Sink&)>& produce);

} // namespace sectio
