#include <sectio/base/ascii.hpp>

#include <utf8proc.h>

#include <algorithm>
#include <iterator>
#include <utility>

namespace sectio {

namespace {

/// Substitutes as the trade and its languages write them (common practice, no source).
constexpr std::pair<char32_t, std::string_view> substitutes[]{
    {U'ı', "i"}, {U'ø', "o"},  {U'Ø', "O"},  {U'ł', "l"},  {U'Ł', "L"},  {U'đ', "d"},
    {U'Đ', "D"}, {U'ß', "ss"}, {U'æ', "ae"}, {U'Æ', "AE"}, {U'œ', "oe"}, {U'Œ', "OE"},
    {U'ð', "d"}, {U'þ', "th"}, {U'ʿ', "'"},  {U'ʾ', "'"},  {U'ʻ', "'"},  {U'ʼ', "'"},
    {U'‘', "'"}, {U'’', "'"},  {U'“', "\""}, {U'”', "\""}, {U'–', "-"},  {U'—', "-"},
    {U'−', "-"}, {U'‑', "-"},  {U'♯', "#"},  {U'♭', "b"},  {U'×', "x"},  {U'¢', "c"},
};

bool is_mark(utf8proc_int32_t character) {
    const auto category = utf8proc_category(character);
    return category == UTF8PROC_CATEGORY_MN || category == UTF8PROC_CATEGORY_MC
           || category == UTF8PROC_CATEGORY_ME;
}

std::string substitute(utf8proc_int32_t character) {
    if (character >= 0x20 && character <= 0x7E)
        return {static_cast<char>(character)};
    const auto* const found =
        std::find_if(std::begin(substitutes), std::end(substitutes), [&](const auto& pair) {
            return static_cast<utf8proc_int32_t>(pair.first) == character;
        });
    return found == std::end(substitutes) ? "?" : std::string(found->second);
}

/// The base of a character with diacritics, or the character itself.
std::string in_ascii(utf8proc_int32_t character) {
    constexpr utf8proc_ssize_t longest = 32; // of what one character decomposes into, 18 at most
    utf8proc_int32_t parts[longest];
    int last_class = 0;
    const auto options = static_cast<utf8proc_option_t>(UTF8PROC_DECOMPOSE | UTF8PROC_COMPAT);
    const auto count = utf8proc_decompose_char(character, parts, longest, options, &last_class);
    std::string text;
    for (utf8proc_ssize_t i = 0; i < std::min(count, longest); ++i)
        if (!is_mark(parts[i]))
            text += substitute(parts[i]);
    return text;
}

} // namespace

std::string ascii_letters(std::string_view text) {
    std::string out;
    const auto* at = reinterpret_cast<const utf8proc_uint8_t*>(text.data());
    for (auto left = static_cast<utf8proc_ssize_t>(text.size()); left > 0;) {
        utf8proc_int32_t character = 0;
        const utf8proc_ssize_t read = utf8proc_iterate(at, left, &character);
        out += read > 0 ? in_ascii(character) : "?";
        const utf8proc_ssize_t used = std::max<utf8proc_ssize_t>(read, 1);
        at += used;
        left -= used;
    }
    return out;
}

} // namespace sectio
