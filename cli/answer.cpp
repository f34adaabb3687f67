#include "answer.hpp"

#include <sectio/base/file.hpp>
#include <sectio/base/messages.hpp>

#include <fmt/format.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>

namespace sectio::cli {

namespace {

/// Columns of a line: those of the terminal, as far as lines of them are still read with ease, else
/// what a page of text usually has.
std::size_t line_columns() {
    constexpr std::size_t usual = 100, fewest = 40, most = 140;
    winsize size{};
    if (isatty(STDOUT_FILENO) == 0 || ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0
        || size.ws_col == 0)
        return usual;
    return std::clamp<std::size_t>(size.ws_col, fewest, most);
}

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
}

void answer(const page::Page& page, const CommonOptions& options, const CLI::App& command,
            page::PrintOptions print_options) {
    if (command.count("--digits") > 0)
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
    print_options.columns = line_columns();
    print(page::print(page, printed_format(), print_options));
}

void tell_unwritten(const CommonOptions& options, const std::string& what) {
    if (options.out.empty() && !options.json)
        fmt::print(stderr, "sectio: {} was not written; --out FILE writes it ({})\n", what,
                   text(options.kinds));
}

} // namespace sectio::cli
