#pragma once
/// @file
/// How wide lines may be.

#include <cstddef>

namespace sectio::cli {

/// Columns of the terminal that standard output goes to, from 40 to `most`; `usual` where it goes
/// elsewhere.
std::size_t line_columns(std::size_t usual, std::size_t most);

} // namespace sectio::cli
