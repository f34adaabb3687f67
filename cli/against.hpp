#pragma once
/// @file
/// What a sheet compares its scale with: `--against 12,53,turkish-24,my-zither.toml`.

#include "command.hpp"

#include <sectio/base/comma_list.hpp>

namespace sectio::cli {

struct Against {
    std::vector<EqualDivision> divisions;
    std::vector<Scale> systems;
};

/// An item that begins with a digit and is no file is a division; any other is what SCALE may be.
/// @throws Error with the place in the argument
Against parse_against(const std::string& text);

/// An item as what SCALE may be, a division too. @throws Error with its place
Scale scale_against(const ListItem& item);

} // namespace sectio::cli
