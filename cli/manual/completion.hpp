#pragma once
/// @file
/// Completion for the shells: commands, options, the words that options take, ids of the catalogue,
/// and files.

#include "outline.hpp"

#include <string>
#include <vector>

namespace sectio::manual {

std::string bash_completion(const Command& all, const std::vector<std::string>& ids);
std::string zsh_completion(const Command& all, const std::vector<std::string>& ids);
std::string fish_completion(const Command& all, const std::vector<std::string>& ids);

} // namespace sectio::manual
