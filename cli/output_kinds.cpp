#include "output_kinds.hpp"

#include <sectio/base/command_files.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/base/temporary_file.hpp>
#include <sectio/print/format.hpp>
#include <sectio/print/set_pages.hpp>

#include <algorithm>
#include <cctype>
#include <filesystem>

namespace sectio::cli {

OutputKinds page_kinds(OutputKinds others) {
    for (const std::string_view ending : page::known_endings())
        others.push_back({ending, "the page"});
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
    std::string text = std::filesystem::path(file_name).extension().string();
    std::transform(text.begin(), text.end(), text.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return text;
}

void check_output(const std::string& file, const char* option, const OutputKinds& kinds) {
    if (file.empty())
        return;
    const std::string given = ending(file);
    if (std::none_of(kinds.begin(), kinds.end(),
                     [&](const OutputKind& kind) { return kind.ending == given; }))
        throw error(message::unknown_output_kind, file, {option}, text(kinds));
    will_write(file);
    check_writable(followed(file));
    if (const auto format = page::format_of(file); format && is_drawn(*format))
        page::begin_reading_fonts();
}

} // namespace sectio::cli
