#pragma once
/// @file
/// One command for many files: which they are, and what becomes of those that fail.

#include "command.hpp"

#include <sectio/base/error.hpp>

#include <map>

namespace sectio::cli {

/// Options of commands that take many files.
struct BatchOptions {
    std::string files_from;
    bool json_lines = false;
    unsigned threads = 0;
};

/// `argument` is what the command takes otherwise.
void add_batch_options(Command& command, BatchOptions& options, const std::string& argument);

/// True where `argument` is a folder or a list is named.
bool are_many(const std::string& argument, const BatchOptions& options);

/// The files that are asked for together: those of the list that --files-from names, separated by
/// NUL where it has any, else by line ends; or those of the folder `argument` and its folders that
/// have one of the `kinds` as their ending (".csv"), without hidden ones, in the order of their
/// paths' bytes. Nothing where `argument` is no folder and no list is named.
/// @throws Error no_files, file_list_too_long, cannot_read
std::optional<std::vector<std::string>> files_together(const std::string& argument,
                                                       const BatchOptions& options,
                                                       const std::vector<std::string>& kinds);

/// The error with the file, or what else was asked by, before its place.
Error named(const std::string& file, const Error& error);

/// Each with its file, as end_with() of errors.hpp tells them.
void tell_failures(const std::vector<std::string>& files,
                   const std::map<std::size_t, Error>& failed, bool json);

} // namespace sectio::cli
