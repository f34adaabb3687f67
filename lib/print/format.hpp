#pragma once
/// @file
/// The formats of a page, by the ending of a file.

#include <sectio/base/error.hpp>
#include <sectio/print/print.hpp>

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sectio::page {

enum class Format { text, json, csv, html, pdf, svg };

/// The endings that format_of() knows: ".pdf", ".svg", ".html", ".txt", ".csv", ".json".
std::vector<std::string_view> known_endings();

/// The format that the ending of `file` names, in any case; nothing where it names none.
std::optional<Format> format_of(const std::filesystem::path& file);

/// True where fonts are read for it: begin_reading_fonts() of typeset_pages.hpp before other work
/// then saves time.
bool is_drawn(Format format);

/// The page in `format`: the bytes of a whole file.
std::string print(const Page& page, Format format, const PrintOptions& options = {});

} // namespace sectio::page
