#include "answer.hpp"

#include "terminal.hpp"

#include <sectio/base/command_files.hpp>
#include <sectio/base/file.hpp>
#include <sectio/base/messages.hpp>

#include <fmt/format.h>

namespace sectio::cli {

namespace {

/// Columns of a page of text, and how many are still read with ease.
constexpr std::size_t usual_columns = 100, most_columns = 140;

page::Format& printed_format() {
    static page::Format format = page::Format::text;
    return format;
}

} // namespace

void print_pages_as(page::Format format) {
    printed_format() = format;
}

bool prints_text() {
    return printed_format() == page::Format::text;
}

void check_out(const CommonOptions& options) {
    check_output(options.out, "--out", options.kinds);
    if (options.json && is_standard_output(options.out))
        throw error(message::two_on_standard_output, "", {"--out"});
}

void answer(const page::Page& page, const CommonOptions& options, const Command& command,
            page::PrintOptions print_options) {
    if (command.given("--digits"))
        print_options.digits = options.digits;
    if (options.json)
        print(print_json(page, print_options));
    if (!options.out.empty()) {
        const auto format = page::format_of(options.out);
        if (!format)
            throw error(message::unknown_output_kind, options.out, {"--out"}, text(options.kinds));
        return write_whole(options.out, page::print(page, *format, print_options));
    }
    if (options.json)
        return;
    print_options.columns = line_columns(usual_columns, most_columns);
    print(page::print(page, printed_format(), print_options));
}

void tell_unwritten(const CommonOptions& options, const std::string& what) {
    if (options.out.empty() && !options.json && prints_text())
        fmt::print(stderr, "sectio: {} was not written; --out FILE writes it ({})\n", what,
                   text(options.kinds));
}

} // namespace sectio::cli
