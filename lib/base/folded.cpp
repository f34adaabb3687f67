#include <sectio/base/folded.hpp>

#include <utf8proc.h>

#include <algorithm>
#include <cstdlib>
#include <memory>

namespace sectio {

namespace {

/// Characters that Unicode does not decompose but readers of this trade take for one another.
std::string replaced(std::string text) {
    constexpr std::pair<std::string_view, std::string_view> pairs[]{
        {"ı", "i"}, {"ø", "o"}, {"ł", "l"}, {"đ", "d"}, {"ʿ", ""},  {"ʾ", ""},  {"’", ""},
        {"‘", ""},  {"'", ""},  {"-", " "}, {"–", " "}, {"ک", "ك"}, {"ی", "ي"}, {"ى", "ي"}};
    for (const auto& [from, to] : pairs)
        for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos;)
            text.replace(at, from.size(), to);
    return text;
}

/// The same for text that is all ASCII, as most names are: letters and two of the pairs above.
std::string folded_ascii(std::string_view name) {
    std::string text;
    text.reserve(name.size());
    for (const char c : name)
        if (c >= 'A' && c <= 'Z')
            text += static_cast<char>(c - 'A' + 'a');
        else if (c != '\'')
            text += c == '-' ? ' ' : c;
    return text;
}

/// Vowel signs of Indic scripts tell words apart; their nukta and the marks of other scripts do
/// not.
bool is_dropped(utf8proc_int32_t c) {
    constexpr utf8proc_int32_t indic = 0x900, beyond = 0xE00, nukta = 0x93C;
    const auto kind = utf8proc_category(c);
    const bool mark = kind == UTF8PROC_CATEGORY_MN || kind == UTF8PROC_CATEGORY_MC
                      || kind == UTF8PROC_CATEGORY_ME;
    return mark && (c < indic || c >= beyond || c == nukta);
}

/// Precondition: valid UTF-8.
std::string without_marks(std::string_view text) {
    std::string kept;
    while (!text.empty()) {
        utf8proc_int32_t c = 0;
        const auto size = static_cast<std::size_t>(
            utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                             static_cast<utf8proc_ssize_t>(text.size()), &c));
        if (!is_dropped(c))
            kept += text.substr(0, size);
        text.remove_prefix(size);
    }
    return kept;
}

} // namespace

std::string folded(std::string_view name) {
    if (std::all_of(name.begin(), name.end(),
                    [](char c) { return static_cast<signed char>(c) > 0; }))
        return folded_ascii(name);
    utf8proc_uint8_t* mapped = nullptr;
    const auto options =
        static_cast<utf8proc_option_t>(UTF8PROC_STABLE | UTF8PROC_COMPAT | UTF8PROC_DECOMPOSE
                                       | UTF8PROC_CASEFOLD | UTF8PROC_IGNORE);
    const auto length = utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(name.data()),
                                     static_cast<utf8proc_ssize_t>(name.size()), &mapped, options);
    const std::unique_ptr<utf8proc_uint8_t, decltype(&std::free)> owner(mapped, std::free);
    if (length < 0)
        return std::string(name);
    return replaced(
        without_marks({reinterpret_cast<const char*>(mapped), static_cast<std::size_t>(length)}));
}

} // namespace sectio
