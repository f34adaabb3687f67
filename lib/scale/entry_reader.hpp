#pragma once
/// @file
/// Private to lib/scale: one entry of the catalogue from its table.

#include <sectio/base/toml.hpp>
#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/toml_intervals.hpp>

namespace sectio {

/// Reads one `[[kind]]` table of the catalogue.
/// @throws Error with file, line and column
Entry read_entry(const TomlValue& table, EntryKind kind,
                 const ReadInterval& read = interval_reader());

} // namespace sectio
