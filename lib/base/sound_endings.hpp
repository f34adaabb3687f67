#pragma once
/// @file
/// What names of sound files end in.

#include <algorithm>
#include <array>
#include <cctype>
#include <filesystem>
#include <string>
#include <string_view>

namespace sectio {

/// In lower case: what libsndfile reads, by the names that its kinds of file usually have.
inline constexpr std::array<std::string_view, 16> sound_endings{
    ".wav",  ".wave", ".rf64", ".w64", ".bwf", ".flac", ".aif",  ".aiff",
    ".aifc", ".caf",  ".au",   ".snd", ".ogg", ".oga",  ".opus", ".mp3"};

inline bool has_sound_ending(const std::filesystem::path& file) {
    std::string ending = file.extension().string();
    std::transform(ending.begin(), ending.end(), ending.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return std::find(sound_endings.begin(), sound_endings.end(), ending) != sound_endings.end();
}

} // namespace sectio
