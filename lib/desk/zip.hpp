#pragma once
/// @file
/// Private to lib/desk: many files as one.

#include <filesystem>

namespace sectio::desk {

/// Writes all files below `folder`, by their paths within it, into a new ZIP archive.
/// @throws Error zip_library_missing, zip_not_written
void zip_folder(const std::filesystem::path& folder, const std::filesystem::path& archive);

} // namespace sectio::desk
