#include <sectio/base/utf8.hpp>
#include <sectio/base/visible.hpp>

#include <fmt/format.h>

#include <cstddef>

namespace sectio {

namespace {

bool is_control(char32_t c) {
    return c < 0x20 || (c >= 0x7F && c <= 0x9F);
}

/// Turns or breaks the line it stands in.
bool turns(char32_t c) {
    return c == 0x061C || c == 0x200E || c == 0x200F || (c >= 0x2028 && c <= 0x202E)
           || (c >= 0x2066 && c <= 0x2069);
}

} // namespace

bool is_noncharacter(char32_t c) {
    return (c & 0xFFFE) == 0xFFFE || (c >= 0xFDD0 && c <= 0xFDEF);
}

std::string visible(std::string_view text) {
    std::string shown;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = utf8_length(text, at);
        if (length == 0) {
            shown += fmt::format("<byte {:02X}>", static_cast<unsigned char>(text[at++]));
            continue;
        }
        const char32_t c = utf8_character(text, at, length);
        if (is_control(c) || turns(c) || is_noncharacter(c))
            shown += fmt::format("<U+{:04X}>", static_cast<unsigned>(c));
        else
            shown += text.substr(at, length);
        at += length;
    }
    return shown;
}

} // namespace sectio
