#pragma once
/// @file
/// Private to lib/scale: `practised` of a scale in the catalogue, the degrees that performers are
/// taught to sound elsewhere than theory places them.

#include <sectio/scale/entry.hpp>
#include <sectio/scale/toml_intervals.hpp>

#include <vector>

namespace sectio {

/// Reads `practised = [{ degree = 2, moved = ["-2of53", "-1of53"], source = "…" }]` of the table
/// of `scale`; empty where the key is absent.
/// @throws Error with its place: practised_degree, practised_twice, practised_move,
/// practised_too_far; missing_key, unknown_key, wrong_value_kind; those of an interval
std::vector<PractisedDegree> read_practised(const TomlReader& table, const Scale& scale,
                                            const ReadInterval& read);

} // namespace sectio
