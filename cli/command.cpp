#include "command.hpp"

#include <sectio/base/comma_list.hpp>
#include <sectio/base/command_files.hpp>
#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/source/source.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <iostream>

namespace sectio::cli {

Option* add_output(Command& command, const std::string& name, std::string& file,
                   const std::string& help, const OutputKinds& kinds) {
    return command.add_option(name, file, help + ": " + text(kinds));
}

void add_common_options(Command& command, CommonOptions& options, OutputKinds kinds) {
    command.add_flag("--json", options.json, "one JSON document instead of text");
    command.add_option("--digits", options.digits, "digits after the point")
        ->between(0, limits::decimal_digits);
    if (!kinds.empty())
        add_output(command, "--out", options.out, "write a file", kinds);
    options.kinds = std::move(kinds);
}

std::vector<EqualDivision> parse_divisions(const std::string& text) {
    std::vector<EqualDivision> divisions;
    for (const ListItem& item : comma_list(text, "--against"))
        divisions.push_back(parse_division(item.text, item.place));
    return divisions;
}

LoadedScale scale_argument(const std::string& text) {
    return source::scale_in(source::open(text));
}

void print(const std::string& text) {
    const bool taken = standard_output_is_taken();
    std::FILE* const out = taken ? stderr : stdout;
    if (std::fwrite(text.data(), 1, text.size(), out) != text.size() || std::fflush(out) != 0)
        throw error(message::cannot_write, "", {taken ? "standard error" : "standard output"},
                    "output error");
}

} // namespace sectio::cli
