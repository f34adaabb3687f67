#pragma once
/// @file
/// How a command that answers with a page ends: one call prints it or writes it.

#include "command.hpp"

#include <sectio/page/format.hpp>

#include <filesystem>

namespace sectio::cli {

/// Fails before any work where --out names a file that no format of a page fits. A command that
/// writes other kinds too asks only for what is none of them, and names them as `others`
/// (".mid, "). Begins to read fonts where the answer will be drawn.
/// @throws Error unknown_output_kind
void check_out(const CommonOptions& options, const std::string& others = "");

/// From now on answer() prints on standard output in this format where it would print text: for a
/// caller in this process that shows pages.
void print_pages_as(page::Format format);
/// False after print_pages_as() another format: nothing but the page is then printed.
bool prints_text();

/// Prints `page` on standard output, as text or with --json as JSON; with --out it goes into that
/// file instead, whole or not at all, in the format of its ending. `command` tells whether --digits
/// was given, `print_options` what else was asked; `input` is the file that must not be
/// overwritten.
/// @throws Error unknown_output_kind, cannot_write, output_is_input
void answer(const page::Page& page, const CommonOptions& options, const CLI::App& command,
            page::PrintOptions print_options = {}, const std::filesystem::path& input = {});

} // namespace sectio::cli
