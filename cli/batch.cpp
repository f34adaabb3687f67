#include "batch.hpp"

#include "errors.hpp"

#include <sectio/base/file.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/messages.hpp>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <iostream>

namespace sectio::cli {

namespace {

namespace fs = std::filesystem;

bool hidden(const fs::path& path) {
    return path.filename().string().starts_with('.');
}

std::vector<std::string> files_in(const std::string& folder,
                                  const std::vector<std::string>& kinds) {
    std::vector<std::string> files;
    std::error_code failed;
    fs::recursive_directory_iterator at(folder, failed);
    for (; !failed && at != fs::recursive_directory_iterator(); at.increment(failed)) {
        if (hidden(at->path()))
            at.disable_recursion_pending();
        else if (at->is_regular_file(failed)
                 && std::find(kinds.begin(), kinds.end(), ending(at->path().string()))
                        != kinds.end())
            files.push_back(at->path().string());
    }
    if (failed)
        throw error(message::cannot_read, folder, {}, failed.message());
    std::sort(files.begin(), files.end());
    return files;
}

std::vector<std::string> files_listed(const std::string& list) {
    const std::string bytes = list == "-"
                                  ? read_whole(std::cin, "standard input", limits::table_bytes)
                                  : read_whole(list, limits::table_bytes);
    const std::string text(without_byte_order_mark(bytes));
    const char separator = text.find('\0') == std::string::npos ? '\n' : '\0';
    std::vector<std::string> files;
    for (std::size_t from = 0; from < text.size();) {
        const std::size_t end = std::min(text.find(separator, from), text.size());
        std::string file = text.substr(from, end - from);
        if (separator == '\n' && file.ends_with('\r'))
            file.pop_back();
        if (!file.empty())
            files.push_back(std::move(file));
        from = end + 1;
    }
    return files;
}

} // namespace

void add_batch_options(Command& command, BatchOptions& options, const std::string& argument) {
    command
        .add_option("--files-from", options.files_from,
                    "a list of files, one a line or separated by NUL; - for standard input")
        ->excludes(argument);
    command.add_flag("--json-lines", options.json_lines,
                     "one line of JSON for each of many files, in their order");
    command
        .add_option("--threads", options.threads,
                    "how many files are worked on at once; without it as many as there are "
                    "processors")
        ->between(1, 256);
}

bool are_many(const std::string& argument, const BatchOptions& options) {
    std::error_code ignored;
    return !options.files_from.empty() || fs::is_directory(argument, ignored);
}

std::optional<std::vector<std::string>> files_together(const std::string& argument,
                                                       const BatchOptions& options,
                                                       const std::vector<std::string>& kinds) {
    if (!are_many(argument, options)) {
        if (options.json_lines && !argument.empty())
            throw error(message::json_lines_of_one, argument, {"--json-lines"});
        return std::nullopt;
    }
    const bool listed = !options.files_from.empty();
    std::vector<std::string> files =
        listed ? files_listed(options.files_from) : files_in(argument, kinds);
    if (files.empty())
        throw error(message::no_files, listed ? options.files_from : argument,
                    {listed ? "--files-from" : ""}, fmt::join(kinds, " "));
    if (files.size() > limits::files_together)
        throw error(message::file_list_too_long, "", {}, limits::files_together);
    return files;
}

Error named(const std::string& file, const Error& error) {
    Place place = error.place();
    if (place.source.empty() || place.source == "SCALE")
        place = {file};
    else if (!place.source.starts_with(file))
        place.source = file + ": " + place.source;
    return error.at(place);
}

void tell_failures(const std::vector<std::string>& files,
                   const std::map<std::size_t, Error>& failed, bool json) {
    std::vector<Error> all;
    for (const auto& [i, failure] : failed)
        all.push_back(named(files[i], failure));
    end_with(all, json);
}

} // namespace sectio::cli
