#pragma once
/// @file
/// Transcripts: commands and all that they say and write, kept as text. A command begins with `$ `;
/// what follows up to the next is its output, then files, then the exit code where that is not 0.

#include "support/paths.hpp"

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace support {

/// `$ sectio COMMAND` and all that came of it.
struct Transcribed {
    std::string command; ///< the line behind `$ `
    std::string output;
};

/// What stands before the first command, and the commands.
struct Transcript {
    std::string heading;
    std::vector<Transcribed> commands;
};

Transcript read_transcript(const std::string& text);
std::string written(const Transcript& transcript);

/// The words of a line: separated by blanks, '…' and "…" hold blanks.
std::vector<std::string> words_of(const std::string& line);

/// Runs `sectio …` of a line in this process, from the folder of the sources, so that a fault
/// anywhere in the library is seen.
class InProcess {
  public:
    /// All that the command says, the files that it writes, and its exit code where that is not 0.
    /// A word OUT/NAME is a file in a folder that is there for as long as this object; its text, or
    /// the beginning of its bytes as hexadecimal, follow the output. Of drawings
    /// follow the strokes and the places of the letters. In JSON short objects and lists stand on
    /// one line. Today's date reads TODAY, and a carriage return \r.
    std::string run(const std::string& line);

  private:
    /// The files of the folder that are not as they were.
    std::string changed_files();

    TempDir folder_;
    std::map<std::filesystem::path, std::string> files_;
};

} // namespace support
