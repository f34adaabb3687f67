#pragma once
/// @file
/// How unlike two words are.

#include <cstddef>
#include <string_view>

namespace sectio {

/// Letters to add, take or change to make one of the other. Source: V. I. Levenshtein, Soviet
/// Physics Doklady 10 (1966).
std::size_t edit_distance(std::string_view a, std::string_view b);

} // namespace sectio
