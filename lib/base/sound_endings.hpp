#pragma once
/// @file
/// What names of sound files end in.

#include <sectio/base/file_ending.hpp>

#include <array>
#include <string_view>

namespace sectio {

/// In lower case: what libsndfile reads, by the names that its kinds of file usually have.
inline constexpr std::array<std::string_view, 16> sound_endings{
    ".wav",  ".wave", ".rf64", ".w64", ".bwf", ".flac", ".aif",  ".aiff",
    ".aifc", ".caf",  ".au",   ".snd", ".ogg", ".oga",  ".opus", ".mp3"};

inline bool has_sound_ending(const std::filesystem::path& file) {
    const std::string ending = file_ending(file);
    return std::find(sound_endings.begin(), sound_endings.end(), ending) != sound_endings.end();
}

} // namespace sectio
