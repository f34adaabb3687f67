#pragma once
/// @file
/// Private to lib/scale: one entry of the catalogue from its table.

#include <sectio/base/toml.hpp>
#include <sectio/scale/entry.hpp>
#include <sectio/scale/toml_intervals.hpp>
#include <sectio/scale/traditions.hpp>

namespace sectio {

/// Reads one `[[kind]]` table of the catalogue; `traditions` are those that entries may name.
/// @throws Error with file, line and column
Entry read_entry(const TomlValue& table, EntryKind kind, const Traditions& traditions,
                 const ReadInterval& read = interval_reader());

} // namespace sectio
