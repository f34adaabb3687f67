#include "run.hpp"

#include "command.hpp"
#include "help.hpp"

#include <sectio/base/error.hpp>
#include <sectio/base/visible.hpp>
#include <sectio/version.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <exception>
#include <new>
#include <string>
#include <vector>

namespace {

constexpr int done = 0, unusable = 2, file_trouble = 3, undecided = 4;

int exit_code(sectio::ErrorCode code) {
    switch (code) {
    case sectio::ErrorCode::unusable:
        return unusable;
    case sectio::ErrorCode::undecided:
        return undecided;
    case sectio::ErrorCode::unreadable:
    case sectio::ErrorCode::unwritable:
        return file_trouble;
    }
    return unusable;
}

/// Help and version go to standard output and are no errors; all else is a request that cannot be
/// read.
int parse_exit(const CLI::App& app, const CLI::ParseError& e) {
    if (e.get_exit_code() == static_cast<int>(CLI::ExitCodes::Success))
        return app.exit(e);
    fmt::print(stderr, "sectio: {}; run `sectio --help`, or `sectio COMMAND --help`\n",
               sectio::visible(e.what()));
    return unusable;
}

/// The first argument where it is neither a command nor an option.
std::string unknown_command(const CLI::App& app, int argc, char** argv) {
    const std::string word = argc > 1 ? argv[1] : "";
    const auto commands = app.get_subcommands([](const CLI::App*) { return true; });
    const bool known =
        word.empty() || word.starts_with('-')
        || std::any_of(commands.begin(), commands.end(),
                       [&](const CLI::App* command) { return command->get_name() == word; });
    return known ? "" : word;
}

/// The arguments in the order that CLI11 takes them, last first. It ends a command at `--` where
/// that has an argument already, so `interval 3/2 -- -5c` would lose what follows; where nothing
/// behind the dashes could be an option they are not needed.
std::vector<std::string> arguments(int argc, char** argv) {
    std::vector<std::string> list(argv + 1, argv + argc);
    const auto could_be_option = [](const std::string& text) {
        return text.size() > 1 && text[0] == '-' && (text[1] < '0' || text[1] > '9');
    };
    const auto dashes = std::find(list.begin(), list.end(), "--");
    if (dashes != list.end() && std::none_of(dashes + 1, list.end(), could_be_option))
        list.erase(dashes);
    std::reverse(list.begin(), list.end());
    return list;
}

int parse_and_run(int argc, char** argv) {
    CLI::App app(sectio::cli::purpose, "sectio");
    app.set_version_flag("--version", sectio::version);
    app.require_subcommand(1);
    app.formatter_fn([](const CLI::App* of, const std::string&, CLI::AppFormatMode) {
        return sectio::cli::help_text(*of);
    });
    sectio::cli::add_commands(app);
    if (const std::string word = unknown_command(app, argc, argv); word == "help") {
        fmt::print("{}", sectio::cli::help_text(app));
        return done;
    } else if (!word.empty()) {
        fmt::print(stderr, "sectio: unknown command: `{}`{}; run `sectio --help`\n",
                   sectio::visible(word), sectio::cli::like_command(app, word));
        return unusable;
    }
    try {
        app.parse(arguments(argc, argv));
    } catch (const CLI::ParseError& e) {
        return parse_exit(app, e);
    }
    return done;
}

} // namespace

void sectio::cli::add_commands(CLI::App& app) {
    add_interval(app);
    add_divisions(app);
    add_commas(app);
    add_compare(app);
    add_sheet(app);
    add_annotate(app);
    add_frets(app);
    add_perform(app);
    add_tuning(app);
    add_listen(app);
    add_measure(app);
    add_samples(app);
    add_catalogue(app);
    add_identify(app);
    add_desk(app);
}

int sectio::cli::run(int argc, char** argv) {
    try {
        return parse_and_run(argc, argv);
    } catch (const sectio::Error& e) {
        fmt::print(stderr, "sectio: {}\n", e.what());
        return exit_code(e.code());
    } catch (const std::bad_alloc&) {
        fmt::print(stderr, "sectio: the request needs more memory than there is\n");
        return undecided;
    } catch (const std::exception& e) {
        fmt::print(stderr, "sectio: {}\n", visible(e.what()));
        return file_trouble;
    }
}
