#pragma once
/// @file
/// Private to lib/desk: the files of lib/desk/page, which are part of the program.

#include <string_view>

namespace sectio::desk {

struct Asset {
    std::string_view name, type, content;
};

/// The file of this name, or nothing. "" is the page itself.
const Asset* asset(std::string_view name);

} // namespace sectio::desk
