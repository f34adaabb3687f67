#pragma once
/// @file
/// Markdown as our documents use it, as a manual page: headings, paragraphs, lists, tables, blocks.

#include <string>
#include <string_view>
#include <vector>

namespace sectio::manual {

/// A part of a document: what stands below a heading, in its lines.
struct Section {
    std::string heading; ///< without its signs; empty for what stands before any
    int level = 0;
    std::vector<std::string> lines;
};

std::vector<Section> sections_of(std::string_view markdown);

/// One line of text whose signs mean nothing to roff.
std::string plain(std::string_view text);

/// The section's lines as roff, its heading left out.
std::string roff_of(const Section& section);

} // namespace sectio::manual
