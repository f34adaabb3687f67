#pragma once
/// @file
/// The page that leads to a set of pages in one folder.

#include <string>
#include <vector>

namespace sectio::page {

/// One page of the set.
struct IndexEntry {
    std::string file;  ///< its name in the folder; empty where there is none, and no link
    std::string name;  ///< as people call it
    std::string group; ///< the heading that it stands under; may be empty
    std::string said;  ///< beside the name: "7 degrees"
};

/// One HTML file, also well-formed XML, with a link to each page; groups in the order in which they
/// first come.
std::string print_index(const std::string& title, const std::vector<IndexEntry>& entries);

} // namespace sectio::page
