#pragma once
/// @file
/// Private to lib/scale: one catalogue entry from its piece of TOML.

#include <sectio/scale/catalogue.hpp>

#include <cstddef>
#include <string>
#include <string_view>

namespace sectio {

/// Where an entry stands in its file, as bytes, and the line that it begins at.
struct EntryText {
    std::string id;
    std::size_t begin = 0, end = 0, line = 1;
    std::string file;
};

/// @throws Error with file, line and column
Entry read_entry(std::string_view toml, const EntryText& where);

} // namespace sectio
