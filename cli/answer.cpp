#include "answer.hpp"

#include <sectio/base/file.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/page/set_pages.hpp>

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

page::Format chosen_format(const CommonOptions& options, const std::string& others) {
    if (const auto format = page::format_of(options.out))
        return *format;
    throw error(message::unknown_output_kind, options.out, {"--out"},
                others + page::known_endings());
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

void check_out(const CommonOptions& options, const std::string& others) {
    if (!options.out.empty() && is_drawn(chosen_format(options, others)))
        page::begin_reading_fonts();
}

void answer(const page::Page& page, const CommonOptions& options, const CLI::App& command,
            page::PrintOptions print_options, const std::filesystem::path& input) {
    if (command.count("--digits") > 0)
        print_options.digits = options.digits;
    if (options.json)
        print(print_json(page, print_options));
    if (!options.out.empty()) {
        const page::Format format = chosen_format(options, "");
        return write_whole(options.out, page::print(page, format, print_options), input);
    }
    if (options.json)
        return;
    print_options.columns = line_columns();
    print(page::print(page, printed_format(), print_options));
}

} // namespace sectio::cli
