#pragma once
/// @file
/// Files that are not in their place yet, and what becomes of them when a signal ends the program.

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>

namespace sectio {

/// Asks before the work whether `target` can be replaced or made.
/// @throws Error cannot_write where it may not be written, folder_takes_no_file
void check_writable(const std::filesystem::path& target);

/// A new file beside its target, removed unless it was put in the target's place: also at the end
/// of a program that called remove_temporaries_at_signals().
class TemporaryFile {
  public:
    /// @throws Error, as check_writable() does
    explicit TemporaryFile(std::filesystem::path target);
    ~TemporaryFile();
    TemporaryFile(const TemporaryFile&) = delete;
    TemporaryFile& operator=(const TemporaryFile&) = delete;

    /// False where the system refuses, with errno.
    bool write(std::string_view bytes);

    /// Puts the file, once it is on the disk, in the place of its target, whose permissions it
    /// takes. False where the system refuses, with errno.
    bool put_in_place();

  private:
    std::filesystem::path target_;
    std::string name_;
    int descriptor_ = -1;
    std::size_t slot_;
};

/// From now on a signal that ends the program (SIGINT, SIGTERM, SIGHUP, SIGPIPE …) removes its
/// temporary files first; the program still ends by the signal. What is ignored stays so.
void remove_temporaries_at_signals();

} // namespace sectio
