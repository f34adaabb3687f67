#pragma once
/// @file
/// Private to lib/desk: what lies on the desk, and how it is recognised.

#include <string>
#include <string_view>
#include <vector>

namespace sectio::desk {

/// A file that was handed over, or a text that was typed.
struct Thing {
    int number = 0;
    std::string file;  ///< its name, which has a dot; empty for a text
    std::string text;  ///< what was typed, as commands take it
    std::string kind;  ///< "scale", "pitches", "instrument", "score", "midi", "messages",
                       ///< "recording", "track", "places" of frets, "interval"; empty: unknown yet
    std::string words; ///< what it is, for people; or why it is nothing

    /// What stands for it in a command.
    std::string argument() const { return file.empty() ? text : file; }
};

/// What a file or a typed text is.
struct Recognised {
    std::string kind, words, text;
};

/// A file by its own name in the current folder.
/// @throws Error of the reader that is in charge
Recognised recognise_file(const std::string& name);

/// A typed text, which is never taken for a file: a name or id of the catalogue, a number of equal
/// steps, an interval, or pitches or intervals between commas, blanks or ends of lines.
/// @throws Error of the reader that is in charge
Recognised recognise_text(const std::string& text);

/// An entry of the catalogue that a text being typed may mean.
struct Match {
    std::string id, name, kind;
};

/// At most so many. None where nothing is like it.
std::vector<Match> matches_of(const std::string& text, std::size_t most);

} // namespace sectio::desk
