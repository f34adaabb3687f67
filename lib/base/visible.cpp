#include <sectio/base/visible.hpp>

#include <fmt/format.h>

#include <cstddef>

namespace sectio {

namespace {

unsigned byte(std::string_view text, std::size_t at) {
    return at < text.size() ? static_cast<unsigned char>(text[at]) : 0;
}

/// The control character at the beginning of `text`, by its bytes in UTF-8, or 0. All of them have
/// one byte (C0), two (C1, U+061C) or three (U+200E … U+2069).
unsigned control_at(std::string_view text) {
    const unsigned first = byte(text, 0), second = byte(text, 1), third = byte(text, 2);
    if (first < 0x20 || first == 0x7F)
        return first == 0 ? 0x2400 : first; // 0 means none; the sign for NUL stands for it
    if (first == 0xC2 && second >= 0x80 && second <= 0x9F)
        return second;
    if (first == 0xD8 && second == 0x9C)
        return 0x061C;
    if (first != 0xE2 || third < 0x80)
        return 0;
    const unsigned point = 0x2000 + ((second & 0x3F) << 6) + (third & 0x3F);
    const bool turns = point == 0x200E || point == 0x200F || (point >= 0x202A && point <= 0x202E)
                       || (point >= 0x2066 && point <= 0x2069);
    return turns ? point : 0;
}

std::size_t length_of(unsigned point) {
    return point < 0x80 || point == 0x2400 ? 1 : point < 0x800 ? 2 : 3;
}

} // namespace

std::string visible(std::string_view text) {
    std::string shown;
    while (!text.empty()) {
        const unsigned control = control_at(text);
        if (control == 0)
            shown += text.front();
        else
            shown += fmt::format("<U+{:04X}>", control == 0x2400 ? 0 : control);
        text.remove_prefix(control == 0 ? 1 : length_of(control));
    }
    return shown;
}

} // namespace sectio
