#pragma once
/// @file
/// Text that other programs saved: its coding and the ends of its lines.

#include <cstddef>
#include <filesystem>
#include <istream>
#include <string>

namespace sectio {

/// `bytes` as UTF-8 without a byte order mark: UTF-16 is told by its mark, as spreadsheets save
/// "Unicode text". Where lines end with carriage returns alone these become line feeds.
/// @throws Error not_utf8 with `name` for UTF-16 that is none, and for a NUL, which UTF-16 without
/// its mark is full of
std::string plain_text(std::string bytes, const std::string& name);

/// What read_whole() reads, as such text. @throws Error of both
std::string read_text(const std::filesystem::path& file, std::size_t most_bytes);
std::string read_text(std::istream& input, const std::string& name, std::size_t most_bytes);

} // namespace sectio
