#pragma once
/// @file
/// Which files this process may read. A process that answers texts of which it does not know the
/// author bounds itself to the folders that were handed to it.

#include <filesystem>
#include <string>
#include <vector>

namespace sectio {

/// True where `file` is `folder`, or lies in it or in its folders. Both are canonical paths.
bool lies_in(const std::filesystem::path& file, const std::filesystem::path& folder);

/// From now on no file outside these folders is read, whatever names it; there is no way back.
void read_only_within(const std::vector<std::filesystem::path>& folders);

/// False for a file outside the folders of read_only_within(); symbolic links are followed first.
bool may_read(const std::filesystem::path& file);

/// True where `name` is an ordinary file that may be read.
bool is_file(const std::filesystem::path& name);

/// True where `text` is such a file, or ends like a table or a scale file and so can only be the
/// name of one, which may be missing.
bool names_a_file(const std::string& text);

} // namespace sectio
