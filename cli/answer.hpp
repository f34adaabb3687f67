#pragma once
/// @file
/// How a command that answers with a page ends: one call prints it or writes it.

#include "command.hpp"
#include "errors.hpp"

#include <sectio/print/format.hpp>

namespace sectio::cli {

/// Fails before any work where --out names a kind of file that the command does not write, or a
/// file that must not be replaced. @throws Error, as check_output() does
void check_out(const CommonOptions& options);

/// From now on answer() prints on standard output in this format where it would print text: for a
/// caller in this process that shows pages.
void print_pages_as(page::Format format);
/// False after print_pages_as() another format: nothing but the page is then printed.
bool prints_text();

/// Prints `page` on standard output, as text or with --json as JSON; with --out it goes into that
/// file instead, whole or not at all, in the format of its ending. `command` tells whether --digits
/// was given, `print_options` what else was asked.
/// @throws Error unknown_output_kind, and those of write_whole()
void answer(const page::Page& page, const CommonOptions& options, const Command& command,
            page::PrintOptions print_options = {});

/// Says on standard error, where --out was not given, that what the command makes was not written.
void tell_unwritten(const CommonOptions& options, const std::string& what);

} // namespace sectio::cli
