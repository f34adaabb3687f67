#pragma once
/// @file
/// Many sheets in one command, with an index page that leads to them.

#include "command.hpp"

#include <sectio/page/format.hpp>

#include <functional>

namespace sectio::cli {

struct SheetSet {
    std::vector<std::string> scales; ///< each as SCALE; none for the catalogue's
    std::vector<std::string> among;  ///< of the catalogue, those that these words describe
    std::string folder;              ///< made where there is none
    std::string kind = "pdf";        ///< ending of the sheets, without its point
    page::PrintOptions print;
    /// The sheet of one scale, and what the scale was asked for by; called by several threads at
    /// once.
    std::function<page::Page(const LoadedScale&, const std::string& argument)> make;
};

/// Writes the sheets and `index.html` into the folder; gives what was written as a page. Where one
/// cannot be made, the others are, and its error is thrown at the end.
/// @throws Error set_without_folder, unknown_output_kind, cannot_write, and what making a sheet may
page::Page write_sheets(const SheetSet& set);

} // namespace sectio::cli
