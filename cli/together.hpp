#pragma once
/// @file
/// One command for many files, each with the page that it has alone.

#include "answer.hpp"
#include "batch.hpp"

#include <filesystem>

namespace sectio::cli {

struct Together {
    std::vector<std::string> files;
    std::string folder; ///< that they are of; empty for a list
    std::string out;    ///< folder for what is written; empty where nothing is
    std::string kind;   ///< ending of what is written (".mid"); empty for the file's own

    /// Where what becomes of a file is written: below `out` as the file lies below `folder`. Empty
    /// where nothing is written.
    std::filesystem::path out_of(const std::string& file) const;
};

/// The files of `argument` or of --files-from, and the folder --out, which is made. What is written
/// has the ending `out_kind`, where that is not the one of the file itself.
/// @throws Error those of files_together(), cannot_write; outputs_are_one where two files would be
/// written to one, before any of them is read
std::optional<Together> together_of(const std::string& argument, const BatchOptions& options,
                                    const std::vector<std::string>& kinds, const std::string& out,
                                    const std::string& out_kind = "");

/// Makes the folders that what is written goes into.
/// @throws Error outputs_are_one, cannot_write
void prepare_outputs(const Together& all);

/// The page on one line, the file before the rest. `print` asks for one line.
std::string json_line(const std::string& file, page::Page page, const page::PrintOptions& print);

/// Does `one` for each file, several at once, and answers with a row each: the facts of its page
/// that are no part of an object; or, with --json-lines, with the whole pages, a line each. What
/// fails keeps no other from being done.
void answer_together(const Together& all, const BatchOptions& options, CommonOptions common,
                     const Command& command,
                     const std::function<page::Page(const std::string& file)>& one);

} // namespace sectio::cli
