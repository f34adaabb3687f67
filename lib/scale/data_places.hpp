#pragma once
/// @file
/// All places that the data lie in.

#include <filesystem>
#include <vector>

namespace sectio {

/// data_directory(), and where the links in it lead: those of a built tree go to the source.
/// @throws Error as data_directory()
std::vector<std::filesystem::path> data_places();

} // namespace sectio
