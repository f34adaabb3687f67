#pragma once
/// @file
/// What a sheet compares its scale with: `--against 12,53,turkish-24,my-zither.toml`.

#include "command.hpp"

namespace sectio::cli {

struct Against {
    std::vector<EqualDivision> divisions;
    std::vector<Scale> systems;
};

/// An item that begins with a digit and is no file is a division; any other is what SCALE may be.
/// @throws Error with the place in the argument
Against parse_against(const std::string& text);

} // namespace sectio::cli
