#pragma once
/// @file
/// Which files one command reads and which it writes: no output is an input, whatever the role of
/// either, and no two outputs are one file. Files are told apart by what they are, not by how their
/// names are spelled; devices and pipes may be named as often as one likes.

#include <filesystem>
#include <memory>

namespace sectio {

/// While one lives, all that reads or writes files in this process keeps its rule; without one
/// there is none. A command that runs inside another one has files of its own. Regular files that
/// standard output and standard error go to count as outputs.
class CommandFiles {
  public:
    CommandFiles();
    ~CommandFiles();
    CommandFiles(const CommandFiles&) = delete;
    CommandFiles& operator=(const CommandFiles&) = delete;

    struct Known;

  private:
    std::unique_ptr<Known> outer_;
};

/// Says before the work that `file` is going to be written, so that nothing is written where the
/// rule is broken. An empty name is no file. @throws Error output_is_input, outputs_are_one
void will_write(const std::filesystem::path& file);

/// Says that `file` is read, or standard input.
/// @throws Error output_is_input, where it is an output
void reads(const std::filesystem::path& file);
void reads_standard_input();

/// Said by what writes: `file` is written now, and has been written. It need not be announced.
/// @throws Error output_is_input, outputs_are_one
void begins_to_write(const std::filesystem::path& file);
void has_written(const std::filesystem::path& file);

/// `-`, and `-.pdf`, whose ending says the kind: an output of this name goes to standard output. A
/// file that is really called so is `./-.pdf`.
bool is_standard_output(const std::filesystem::path& file);
/// Such an output has been announced by will_write(): nothing else may go there.
bool standard_output_is_taken();

/// The file that `name` stands for once every symbolic link is followed, also one to a file that is
/// yet to be written. @throws Error cannot_write for a ring of links
std::filesystem::path followed(std::filesystem::path name);

} // namespace sectio
