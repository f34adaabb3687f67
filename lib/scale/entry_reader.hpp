#pragma once
/// @file
/// Private to lib/scale: one catalogue entry from its piece of TOML.

#include <sectio/scale/catalogue.hpp>

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace sectio {

/// Where an entry stands in its file, as bytes, the line that it begins at, and the texts that the
/// lines `id`, `name`, `also` and `interval` hold, so that entries are found before any is parsed.
struct EntryText {
    EntryKind kind = EntryKind::interval;
    std::string_view id;
    std::vector<std::string_view> names;
    std::string_view interval;
    std::size_t begin = 0, end = 0, line = 1;
    std::string file;
};

/// @throws Error with file, line and column
Entry read_entry(std::string_view toml, const EntryText& where);

} // namespace sectio
