#include "table.hpp"

#include <utf8proc.h>

#include <algorithm>

namespace sectio::cli {

std::size_t shown_width(std::string_view text) {
    std::size_t width = 0;
    const auto* at = reinterpret_cast<const utf8proc_uint8_t*>(text.data());
    auto left = static_cast<utf8proc_ssize_t>(text.size());
    while (left > 0) {
        utf8proc_int32_t point = 0;
        const utf8proc_ssize_t taken = utf8proc_iterate(at, left, &point);
        if (taken <= 0)
            return width + static_cast<std::size_t>(left);
        width += static_cast<std::size_t>(std::max(0, utf8proc_charwidth(point)));
        at += taken;
        left -= taken;
    }
    return width;
}

std::string aligned(const std::vector<std::vector<std::string>>& rows,
                    const std::vector<Align>& aligns, std::string_view indent) {
    std::vector<std::size_t> widths;
    for (const auto& row : rows) {
        widths.resize(std::max(widths.size(), row.size()), 0);
        for (std::size_t i = 0; i < row.size(); ++i)
            widths[i] = std::max(widths[i], shown_width(row[i]));
    }
    std::string text;
    for (const auto& row : rows) {
        std::string line(indent);
        for (std::size_t i = 0; i < row.size(); ++i) {
            const std::string pad(widths[i] - shown_width(row[i]), ' ');
            const bool right = i < aligns.size() && aligns[i] == Align::right;
            line += right ? pad + row[i] : row[i] + pad;
            line += i + 1 < row.size() ? "  " : "";
        }
        line.erase(line.find_last_not_of(' ') + 1);
        text += line + "\n";
    }
    return text;
}

std::string wrapped(std::string_view text, std::string_view indent, std::size_t width) {
    std::string lines, line(indent);
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find(' ', begin), text.size());
        const std::string_view word = text.substr(begin, end - begin);
        if (line.size() > indent.size() && shown_width(line) + 1 + shown_width(word) > width) {
            lines += line + "\n";
            line = indent;
        }
        line += (line.size() > indent.size() ? " " : "") + std::string(word);
        begin = end + 1;
    }
    return lines + line + "\n";
}

} // namespace sectio::cli
