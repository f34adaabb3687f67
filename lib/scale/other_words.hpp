#pragma once
/// @file
/// Private to lib/scale: other words for what the catalogue's entries are called, or are played on.

#include <span>
#include <string_view>

namespace sectio {

/// Words, folded(), that a word which readers write (folded() too) stands for in the catalogue:
/// "oud" for "ud" and "lute". None for most words. Common practice (from memory).
std::span<const std::string_view> words_for(std::string_view word);
/// Of an instrument: words of the traditions whose scales are played on it, "arab" for "oud".
std::span<const std::string_view> played_on(std::string_view word);

} // namespace sectio
