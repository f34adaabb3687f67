#pragma once
/// @file
/// Private to lib/scale: one entry of the catalogue from its table.

#include <sectio/base/toml.hpp>
#include <sectio/scale/catalogue.hpp>

namespace sectio {

/// Reads one `[[kind]]` table of the catalogue.
/// @throws Error with file, line and column
Entry read_entry(const TomlValue& table, EntryKind kind);

} // namespace sectio
