#include <sectio/base/file.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/toml.hpp>
#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/references.hpp>

#include <filesystem>
#include <map>

namespace sectio {

namespace {

using Works = std::map<std::string, std::string, std::less<>>;

std::string reference_of(const TomlReader& work) {
    std::string text;
    if (const auto author = work.optional_text("author"); author && !author->empty())
        text = *author + ", ";
    text += work.required_text("title");
    const auto year = work.optional_text("year");
    return year && !year->empty() ? text + " (" + *year + ")" : text;
}

Works read_works() {
    const std::filesystem::path file = data_directory() / "sources.toml";
    if (!std::filesystem::is_regular_file(file))
        return {}; // a catalogue of one's own need not have one
    const TomlValue document =
        parse_toml(read_whole(file, limits::scale_file_bytes), file.string());
    Works works;
    for (const TomlReader& work : TomlReader(document).tables("source", "[[source]]"))
        works.emplace(work.required_text("key"), reference_of(work));
    return works;
}

bool in_key(char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
}

/// Read once.
const Works& works() {
    static const Works all = read_works();
    return all;
}

} // namespace

std::string with_references(std::string_view source) {
    std::string text;
    for (std::size_t at = 0; at < source.size();) {
        std::size_t end = at;
        while (end < source.size() && in_key(source[end]))
            ++end;
        const std::string_view word = source.substr(at, end - at);
        if (works().contains(word))
            text += works().find(word)->second;
        else
            text += word;
        if (end < source.size())
            text += source[end++];
        at = end;
    }
    return text;
}

} // namespace sectio
