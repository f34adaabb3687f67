#include <sectio/base/markup.hpp>
#include <sectio/page/numbers.hpp>
#include <sectio/print/print_index.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio::page {

namespace {

constexpr std::string_view index_style = R"(
:root { color-scheme: light dark; }
body { font: 11pt/1.45 "Noto Sans", "Liberation Sans", Arial, sans-serif; max-width: 60em;
  margin: 1em auto; padding: 0 1em; }
h1 { font-size: 19pt; } h2 { font-size: 13pt; margin: 1.2em 0 .3em; break-after: avoid; }
ul { columns: 20em; padding: 0; margin: 0; list-style: none; }
li { break-inside: avoid; padding-left: 1em; text-indent: -1em; } small { white-space: nowrap; }
@media print { a { color: inherit; text-decoration: none; } }
)";

/// A file name as a relative address (RFC 3986, 3.3): what is not unreserved is escaped.
std::string address(std::string_view file) {
    std::string text = "./";
    for (const char c : file) {
        const bool plain = (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z')
                           || (c >= 'a' && c <= 'z')
                           || std::string_view("-._~").find(c) != std::string_view::npos;
        text += plain ? std::string(1, c) : fmt::format("%{:02X}", static_cast<unsigned char>(c));
    }
    return text;
}

std::string item(const IndexEntry& entry) {
    if (entry.file.empty())
        return fmt::format("<li><bdi>{}</bdi>: {}</li>\n", escaped(one_line(entry.name)),
                           escaped(one_line(entry.said)));
    return fmt::format("<li><a href=\"{}\" dir=\"auto\">{}</a> <small>{}</small></li>\n",
                       address(entry.file), escaped(one_line(entry.name)), escaped(entry.said));
}

std::vector<std::string> groups_of(const std::vector<IndexEntry>& entries) {
    std::vector<std::string> groups;
    for (const IndexEntry& entry : entries)
        if (std::find(groups.begin(), groups.end(), entry.group) == groups.end())
            groups.push_back(entry.group);
    return groups;
}

} // namespace

std::string print_index(const std::string& title, const std::vector<IndexEntry>& entries) {
    const std::string heading = escaped(one_line(title));
    std::string body = fmt::format("<h1>{}</h1>\n", heading);
    for (const std::string& group : groups_of(entries)) {
        if (!group.empty())
            body += fmt::format("<h2>{}</h2>\n", escaped(one_line(group)));
        body += "<ul>\n";
        for (const IndexEntry& entry : entries)
            if (entry.group == group)
                body += item(entry);
        body += "</ul>\n";
    }
    return fmt::format(
        "<!DOCTYPE html>\n<html lang=\"en\" xmlns=\"http://www.w3.org/1999/xhtml\">\n"
        "<head><meta charset=\"utf-8\"/><title>{}</title>\n"
        "<meta name=\"viewport\" content=\"width=device-width\"/>\n"
        "<style>{}</style></head>\n<body>\n{}</body>\n</html>\n",
        heading, index_style, body);
}

} // namespace sectio::page
