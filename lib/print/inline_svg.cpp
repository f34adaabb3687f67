#include <sectio/print/inline_svg.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

namespace sectio::page {

namespace {

/// Every drawing calls its glyphs glyph0-1 and so on, and a page has one name for one thing: names
/// and what points at them, in the three ways of SVG, get `prefix`.
std::string renamed(const std::string& svg, const std::string& prefix) {
    std::string out;
    for (std::size_t at = 0; at < svg.size();) {
        std::size_t length = 1;
        for (const std::string_view before : {" id=\"", "href=\"#", "url(#"})
            if (svg.compare(at, before.size(), before) == 0)
                length = before.size();
        out.append(svg, at, length);
        if (length > 1)
            out += prefix;
        at += length;
    }
    return out;
}

} // namespace

std::string inline_svg(const std::string& svg, std::size_t number) {
    const std::size_t begin = std::min(svg.find("<svg"), svg.size());
    return renamed(svg.substr(begin), fmt::format("d{}-", number));
}

} // namespace sectio::page
