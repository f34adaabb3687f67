#include <sectio/base/markup.hpp>
#include <sectio/base/utf8.hpp>
#include <sectio/base/visible.hpp>

#include <algorithm>

namespace sectio {

namespace {

/// The characters of XML 1.0 (production 2) that text is made of.
bool is_xml(char32_t c) {
    return c >= 0x20 ? !is_noncharacter(c) : c == '\t' || c == '\n' || c == '\r';
}

std::string_view escape(char32_t c, std::string_view itself) {
    switch (c) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    default:
        return is_xml(c) ? itself : "\uFFFD";
    }
}

} // namespace

std::string escaped(std::string_view text) {
    std::string out;
    for (std::size_t at = 0, length = 0; at < text.size(); at += std::max<std::size_t>(length, 1)) {
        length = utf8_length(text, at);
        out += length == 0 ? "\uFFFD"
                           : escape(utf8_character(text, at, length), text.substr(at, length));
    }
    return out;
}

} // namespace sectio
