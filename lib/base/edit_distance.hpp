#pragma once
/// @file
/// How unlike two words are.

#include <cstddef>
#include <string_view>

namespace sectio {

/// Letters to add, take, change or swap with their neighbour to make one of the other, each letter
/// touched once. Source: F. J. Damerau, Communications of the ACM 7 (1964) (from memory).
std::size_t edit_distance(std::string_view a, std::string_view b);

} // namespace sectio
