#pragma once
/// @file
/// Private to lib/scale and the rooms below: intervals and degrees in TOML tables.

#include <sectio/base/toml.hpp>
#include <sectio/scale/scale.hpp>

#include <optional>
#include <string_view>
#include <vector>

namespace sectio {

/// The interval that a key's text says; nothing where the key is absent.
/// @throws Error with its place
std::optional<Interval> optional_interval(const TomlReader& reader, std::string_view key,
                                          const NameLookup& names = nullptr);
/// A list of intervals in quotes; empty where the key is absent.
std::vector<Interval> intervals(const TomlReader& reader, std::string_view key);

/// Reads `period` and `degrees` into `scale` and completes it.
void read_degrees(const TomlReader& reader, Scale& scale, const NameLookup& names,
                  DegreeOrder order);

} // namespace sectio
