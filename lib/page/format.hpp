#pragma once
/// @file
/// The formats of a page, by the ending of a file.

#include <sectio/base/error.hpp>
#include <sectio/page/print.hpp>

#include <filesystem>
#include <optional>
#include <string>

namespace sectio::page {

enum class Format { text, json, csv };

/// The endings that format_of() knows, for messages and for --help: ".txt, .json or .csv".
std::string known_endings();

/// The format that the ending of `file` names, in any case; nothing where it names none.
std::optional<Format> format_of(const std::filesystem::path& file);

/// The page in `format`: the bytes of a whole file.
std::string print(const Page& page, Format format, const PrintOptions& options = {});

} // namespace sectio::page
