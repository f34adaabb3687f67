#pragma once
/// @file
/// Private to lib/desk: what can be asked of the things on the desk: each question is one command,
/// its options a form.

#include <sectio/desk/thing.hpp>

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace sectio::desk {

/// How an option is asked for.
enum class FieldKind {
    text,   ///< a line
    choice, ///< one of its choices
    parts,  ///< some of its choices, joined by commas
    flag,   ///< yes or no
    scale,  ///< a scale on the desk or of the catalogue, or written
};

/// One option of a command.
struct Field {
    std::string_view option; ///< "--tonic"
    std::string_view label;
    FieldKind kind = FieldKind::text;
    std::vector<std::string_view> choices{};
    std::string_view initial{};
    std::string_view hint{}; ///< an example of what to write
};

/// A button.
struct Question {
    std::string_view id, label;
    std::vector<std::string_view> command; ///< "measure", "recording"
    std::vector<std::string_view> kinds;   ///< of the things that it is asked of
    std::size_t least = 1, most = 1;       ///< things
    std::vector<Field> fields;
    std::vector<std::string_view> endings; ///< of the files to take away; ".zip" for a folder
    std::string_view added = "";           ///< to the name of the file that is taken away
    std::string_view always = "";          ///< the ending of what even the page alone comes with
};

/// All of them, in the order of the buttons.
const std::vector<Question>& questions();

/// What a page asks: the question, the things in their order, what the form says.
struct Asked {
    const Question* question = nullptr;
    std::vector<const Thing*> things;
    std::multimap<std::string, std::string> form; ///< by option, without dashes
    std::string ending;                           ///< of the file to take away; empty for the page
    std::vector<std::string> files{}; ///< all that lie on the page, none of which may be replaced
};

/// A command of Sectio, and the file that it writes, if any.
struct Command {
    std::vector<std::string> words; ///< after "sectio"
    std::string out;                ///< a file, or with `folder` a folder
    bool folder = false;
};

/// @throws Error desk_unfit, desk_text_long
Command command_of(const Asked& asked);

/// The command as a shell takes it, `sectio` first.
std::string shell_text(const std::vector<std::string>& words);

} // namespace sectio::desk
