#include "output_kinds.hpp"

#include <sectio/base/command_files.hpp>
#include <sectio/base/file_ending.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/base/temporary_file.hpp>
#include <sectio/print/format.hpp>
#include <sectio/print/typeset_pages.hpp>

#include <unistd.h>

#include <algorithm>

namespace sectio::cli {

OutputKinds page_kinds(OutputKinds others) {
    for (const std::string_view ending : page::known_endings())
        others.push_back({ending, "the page", ending == ".pdf"});
    return others;
}

std::string text(const OutputKinds& kinds) {
    std::vector<std::string_view> endings;
    for (const OutputKind& kind : kinds)
        if (!kind.ending.empty())
            endings.push_back(kind.ending);
    std::string list;
    for (std::size_t i = 0; i < endings.size(); ++i)
        list += std::string(i == 0                    ? ""
                            : i + 1 == endings.size() ? " or "
                                                      : ", ")
                + std::string(endings[i]);
    return list;
}

std::string ending(const std::string& file_name) {
    return file_ending(file_name);
}

namespace {

/// The kind of this ending, or none.
const OutputKind* kind_by_ending(const OutputKinds& kinds, std::string_view ending) {
    const auto found = std::find_if(kinds.begin(), kinds.end(),
                                    [&](const OutputKind& kind) { return kind.ending == ending; });
    return found == kinds.end() ? nullptr : &*found;
}

/// `-` alone says the kind where there is only one, or where a name needs no ending.
std::string ending_on_standard_output(const std::string& given, const OutputKinds& kinds) {
    const auto is_first = [&](const OutputKind& kind) { return kind.what == kinds.front().what; };
    if (given.empty() && std::all_of(kinds.begin(), kinds.end(), is_first))
        return std::string(kinds.front().ending);
    return given;
}

void check_standard_output(const char* option, const std::string& given, const OutputKinds& kinds) {
    std::string spelled;
    for (const OutputKind& kind : kinds)
        spelled += (spelled.empty() ? "-" : ", -") + std::string(kind.ending);
    const OutputKind* const kind = kind_by_ending(kinds, given);
    if (given.empty() && !kind)
        throw error(message::standard_output_kind, "-", {option}, spelled);
    if (kind && kind->binary && isatty(STDOUT_FILENO) == 1)
        throw error(message::bytes_to_terminal, "-" + given, {option});
}

} // namespace

void check_output(const std::string& file, const char* option, const OutputKinds& kinds,
                  bool json) {
    if (file.empty())
        return;
    const bool piped = is_standard_output(file);
    const std::string given = piped ? ending_on_standard_output(ending(file), kinds) : ending(file);
    if (piped)
        check_standard_output(option, given, kinds);
    if (!kind_by_ending(kinds, given))
        throw error(message::unknown_output_kind, file, {option}, text(kinds));
    if (piped && json)
        throw error(message::outputs_are_one, "", {"standard output"});
    will_write(file);
    if (!piped)
        check_writable(followed(file));
    if (const auto format = page::format_of(file); format && is_drawn(*format))
        page::begin_reading_fonts();
}

} // namespace sectio::cli
