#pragma once
/// @file
/// Many sheets in one command, with an index page that leads to them.

#include "command.hpp"

#include <sectio/base/error.hpp>
#include <sectio/print/format.hpp>
#include <sectio/source/source.hpp>

#include <functional>

namespace sectio::cli {

struct SheetSet {
    std::vector<std::string> scales; ///< each as SCALE; none for the catalogue's
    std::vector<std::string> among;  ///< of the catalogue, those that these words describe
    std::string folder;              ///< made where there is none
    std::string kind = "pdf";        ///< ending of the sheets, without its point
    page::PrintOptions print;
    /// The sheet of one scale; called by several threads at once.
    std::function<page::Page(const source::Source&)> make;
};

/// A sheet that could not be made.
struct FailedSheet {
    std::string argument; ///< what it was asked for by
    Error error;
};

struct WrittenSheets {
    page::Page answer; ///< what was written, and what was not
    std::vector<FailedSheet> failed;
};

/// Writes the sheets and `index.html` into the folder. Where some cannot be made, the others are,
/// and the index names both.
/// @throws Error set_without_folder, unknown_output_kind, cannot_write of the folder or its index,
/// or the one error where not a single sheet can be made
WrittenSheets write_sheets(const SheetSet& set);

} // namespace sectio::cli
