#pragma once
/// @file
/// By which ending a file is known.

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <string>

namespace sectio {

/// The ending of a file's name with its point, in lower case: ".pdf". Empty where it has none.
inline std::string file_ending(const std::filesystem::path& file) {
    std::string ending = file.extension().string();
    std::transform(ending.begin(), ending.end(), ending.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return ending;
}

} // namespace sectio
