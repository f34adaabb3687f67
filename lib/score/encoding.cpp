#include <sectio/base/argument.hpp>
#include <sectio/score/xml.hpp>

#include <fmt/format.h>

#include <array>

namespace sectio::score {

std::string_view name(Encoding encoding) {
    static constexpr std::array<std::string_view, 6> names{
        "UTF-8", "UTF-16LE", "UTF-16BE", "ISO-8859-1", "US-ASCII", "windows-1252"};
    return row_for(names, encoding);
}

namespace {

/// The code point that starts at `text[at]`; `at` moves after it. The text is the library's own,
/// so it is valid UTF-8.
char32_t next_code_point(std::string_view text, std::size_t& at) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char lead = byte(at);
    const std::size_t length = lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
    char32_t code = length == 1 ? lead : lead & (0x7FU >> length);
    for (std::size_t i = 1; i < length && at + i < text.size(); ++i)
        code = code << 6 | (byte(at + i) & 0x3FU);
    at += length;
    return code;
}

void put_unit(std::string& out, unsigned unit, bool little) {
    const char low = static_cast<char>(unit & 0xFFU);
    const char high = static_cast<char>(unit >> 8);
    out += little ? low : high;
    out += little ? high : low;
}

void put_utf16(std::string& out, char32_t code, bool little) {
    if (code < 0x10000)
        return put_unit(out, code, little);
    put_unit(out, 0xD800U + ((code - 0x10000U) >> 10), little);
    put_unit(out, 0xDC00U + ((code - 0x10000U) & 0x3FFU), little);
}

} // namespace

std::string encoded(std::string_view text, Encoding encoding) {
    if (encoding == Encoding::utf8)
        return std::string(text);
    const bool little = encoding == Encoding::utf16_little;
    const bool wide = little || encoding == Encoding::utf16_big;
    std::string out;
    for (std::size_t at = 0; at < text.size();) {
        const char32_t code = next_code_point(text, at);
        if (wide)
            put_utf16(out, code, little);
        else if (code < 0x80)
            out += static_cast<char>(code);
        else
            out += fmt::format("&#{};", static_cast<unsigned>(code));
    }
    return out;
}

} // namespace sectio::score
