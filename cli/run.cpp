#include "run.hpp"

#include "command.hpp"
#include "errors.hpp"
#include "help.hpp"

#include <sectio/base/command_files.hpp>
#include <sectio/base/error.hpp>
#include <sectio/scale/lookup.hpp>
#include <sectio/version.hpp>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <new>
#include <string>
#include <string_view>
#include <vector>

namespace {

using namespace sectio::cli;

bool asks_for_json(int argc, char** argv) {
    return std::find(argv, argv + argc, std::string_view("--json")) != argv + argc;
}

/// The command that was called, as far as it was read.
const CLI::App& called_command(const CLI::App& app) {
    const auto parsed = app.get_subcommands();
    return parsed.empty() ? app : called_command(*parsed.front());
}

std::string did_you_mean(const std::string& name) {
    return name.empty() ? "" : "; did you mean " + name;
}

/// What is said of the first option that `command` does not have; nothing where it has all.
std::string unknown_option(const CLI::App& command, int argc, char** argv) {
    const std::vector<std::string> known = option_names(command);
    for (int i = 1; i < argc && std::string_view(argv[i]) != "--"; ++i) {
        std::string word = argv[i];
        word.resize(std::min(word.find('='), word.size()));
        if (word.size() > 2 && word.starts_with("--")
            && std::find(known.begin(), known.end(), word) == known.end())
            return "unknown option: `" + word + "`" + did_you_mean(like(known, word));
    }
    return "";
}

/// "`sectio measure` needs one of frets, pitches, recording" where one of its commands has to
/// follow; nothing where it has none.
std::string lacking_command(const CLI::App& command) {
    const std::vector<std::string> names = command_names(command);
    return names.empty()
               ? ""
               : fmt::format("`{}` needs one of {}", called(command), fmt::join(names, ", "));
}

/// The arguments that no command takes, in the order in which they were written.
std::string stray_arguments(const CLI::App& app) {
    return fmt::format("not expected here: `{}`; what belongs together stands between quotation "
                       "marks, pitches with commas between them",
                       fmt::join(app.remaining(true), " "));
}

/// What the parser says of the values of an option, in plain words.
std::string plain(const CLI::App& app, const CLI::ParseError& e) {
    std::string text = e.what();
    const std::string option = text.substr(0, text.find_first_of(": "));
    constexpr std::string_view excludes = " excludes ";
    if (const std::size_t at = text.find(excludes);
        e.get_name() == "ExcludesError" && at < text.size())
        return text.replace(at, excludes.size(), " and ") + " do not go together";
    if (e.get_exit_code() == static_cast<int>(CLI::ExitCodes::ExtrasError))
        return stray_arguments(app);
    if (e.get_name() != "ArgumentMismatch")
        return text;
    if (text.ends_with("missing"))
        return option + ": its value is missing";
    if (text.ends_with("flag override"))
        return "--" + option + ": it takes no value";
    if (text.find("At Most 1 ") != text.npos)
        return option + ": it is given more than once";
    constexpr std::string_view most = "At Most ", received = " required but received ";
    if (const std::size_t at = text.find(received); at < text.size() && text.find(most) < at)
        text.replace(at, received.size(), " are taken, and there are ")
            .replace(text.find(most), most.size(), "at most ");
    return text;
}

/// Help and version go to standard output and are no errors; all else is a request that cannot be
/// read.
ExitCode parse_exit(const CLI::App& app, const CLI::ParseError& e, int argc, char** argv) {
    if (e.get_exit_code() == static_cast<int>(CLI::ExitCodes::Success)) {
        app.exit(e);
        return ExitCode::done;
    }
    const CLI::App& command = called_command(app);
    const bool lacks = command.get_parent() != nullptr && command.get_require_subcommand_min() > 0;
    std::string what = lacks ? lacking_command(command) : unknown_option(command, argc, argv);
    if (what.empty() && e.get_name() == "RequiredError")
        what = lacking_command(command);
    tell(ExitCode::unusable, what.empty() ? plain(app, e) : what,
         "run `" + called(command) + " --help`", asks_for_json(argc, argv));
    return ExitCode::unusable;
}

/// `sectio help sheet`: the help of the command that the words after `help` name, as far as they
/// do.
std::string help_on(const CLI::App& app, int argc, char** argv) {
    const CLI::App* of = &app;
    for (int i = 2; i < argc; ++i)
        if (const auto found = of->get_subcommands(
                [&](const CLI::App* inner) { return inner->get_name() == argv[i]; });
            !found.empty())
            of = found.front();
    return help_text(*of);
}

/// "; did you mean", and a command of `app` or, for what names a scale, that which shows it.
std::string hint(const CLI::App& app, const std::string& word) {
    const std::string command = like(command_names(app), word);
    const auto is_scale = [](const sectio::Entry& entry) { return entry.scale() != nullptr; };
    if (command.empty() && sectio::entry_called(sectio::Catalogue::installed(), word, is_scale))
        return did_you_mean("sheet " + word);
    return did_you_mean(command);
}

/// The first argument where it is neither a command nor an option.
std::string unknown_command(const CLI::App& app, int argc, char** argv) {
    const std::string word = argc > 1 ? argv[1] : "";
    const std::vector<std::string> names = command_names(app);
    const bool known = word.empty() || word.starts_with('-')
                       || std::find(names.begin(), names.end(), word) != names.end();
    return known ? "" : word;
}

/// The arguments in the order that CLI11 takes them, last first. It ends a command at `--` where
/// that has an argument already, so `interval 3/2 -- -5c` would lose what follows; where nothing
/// after the dashes could be an option, and a file's name there is spelled so that it cannot, they
/// are not needed.
std::vector<std::string> arguments(int argc, char** argv) {
    std::vector<std::string> list(argv + 1, argv + argc);
    const auto could_be_option = [](const std::string& text) {
        return text.size() > 1 && text[0] == '-' && (text[1] < '0' || text[1] > '9');
    };
    const auto dashes = std::find(list.begin(), list.end(), "--");
    for (auto word = dashes; word != list.end(); ++word)
        if (could_be_option(*word) && std::filesystem::path(*word).has_extension())
            word->insert(0, "./");
    if (dashes != list.end() && std::none_of(dashes + 1, list.end(), could_be_option))
        list.erase(dashes);
    std::reverse(list.begin(), list.end());
    return list;
}

ExitCode parse_and_run(int argc, char** argv, bool json) {
    CLI::App app(purpose, "sectio");
    app.set_version_flag("--version", sectio::version);
    app.require_subcommand(1);
    app.formatter_fn(
        [](const CLI::App* of, const std::string&, CLI::AppFormatMode) { return help_text(*of); });
    Command all(app);
    add_commands(all);
    if (const std::string word = unknown_command(app, argc, argv); word == "help") {
        fmt::print("{}", help_on(app, argc, argv));
        return ExitCode::done;
    } else if (!word.empty()) {
        tell(ExitCode::unusable, "unknown command: `" + word + "`" + hint(app, word),
             "run `sectio --help`", json);
        return ExitCode::unusable;
    }
    try {
        app.parse(arguments(argc, argv));
    } catch (const CLI::ParseError& e) {
        return parse_exit(app, e, argc, argv);
    }
    return ExitCode::done;
}

} // namespace

void sectio::cli::add_commands(Command& app) {
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
    const bool json = asks_for_json(argc, argv);
    const auto ends = [&](ExitCode code, const std::string& what) {
        tell(code, what, "", json);
        return static_cast<int>(code);
    };
    try {
        const CommandFiles files;
        return static_cast<int>(parse_and_run(argc, argv, json));
    } catch (const sectio::Error& e) {
        tell(e, json);
        return static_cast<int>(exit_code(e.code()));
    } catch (const std::bad_alloc&) {
        return ends(ExitCode::undecided, "the request needs more memory than there is");
    } catch (const std::exception& e) {
        return ends(ExitCode::file_trouble, e.what());
    }
}
