#pragma once
/// @file
/// Private to lib/scale and the rooms below: intervals and degrees in TOML tables.

#include <sectio/base/toml.hpp>
#include <sectio/scale/pitch_list.hpp>

#include <functional>
#include <optional>
#include <string_view>
#include <vector>

namespace sectio {

/// Reads an expression that stands at a place.
using ReadInterval = std::function<Interval(std::string_view text, const Place& place)>;

/// parse_interval() with these names.
ReadInterval interval_reader(const NameLookup& names = nullptr);
/// The same without names, which remembers what it has read: the catalogue's entries say a few
/// hundred intervals thousands of times.
ReadInterval remembering_reader();

/// The interval that a key's text says; nothing where the key is absent.
/// @throws Error with its place
std::optional<Interval> optional_interval(const TomlReader& reader, std::string_view key,
                                          const ReadInterval& read = interval_reader());
/// A list of intervals in quotes; empty where the key is absent.
std::vector<Interval> intervals(const TomlReader& reader, std::string_view key,
                                const ReadInterval& read = interval_reader());

/// Reads `period` and `degrees` of a table in which a scale is meant: their order is yet to be
/// checked. @throws Error with place
PitchList read_degrees(const TomlReader& reader, const ReadInterval& read);

} // namespace sectio
