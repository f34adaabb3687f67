#include "outline.hpp"

#include "../help.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace sectio::manual {

namespace {

/// The words of a check that allows some words alone, which CLI11 describes as "{up,down}".
std::vector<std::string> words_of(const CLI::Option& option) {
    try {
        for (int i = 0;; ++i) {
            const std::string text =
                const_cast<CLI::Option&>(option).get_validator(i)->get_description();
            if (text.starts_with('{') && text.ends_with('}'))
                return CLI::detail::split(text.substr(1, text.size() - 2), ',');
        }
    } catch (const CLI::OptionNotFound&) { // there is no further check
        return {};
    }
}

Option option_of(const CLI::Option& option) {
    Option made;
    made.argument = option.get_positional();
    made.name = made.argument ? option.get_name() : "--" + option.get_lnames().front();
    made.written = cli::name_of(option);
    made.help = option.get_description();
    made.values = words_of(option);
    made.takes_value = made.argument || option.get_expected_max() > 0;
    made.takes_scale = made.takes_value && made.help.find("catalogue") != std::string::npos;
    return made;
}

Command outline_of(const CLI::App& app, std::vector<std::string> path) {
    Command made;
    made.path = path;
    made.help = app.get_description();
    made.usage = cli::usage(app);
    made.example = cli::example_of(app);
    for (const CLI::Option* option : app.get_options())
        made.options.push_back(option_of(*option));
    for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; })) {
        auto below = path;
        below.push_back(command->get_name());
        made.commands.push_back(outline_of(*command, std::move(below)));
    }
    return made;
}

} // namespace

std::string Command::joined(const std::string& sign) const {
    return fmt::format("{}", fmt::join(path, sign));
}

bool Command::takes_scale() const {
    return std::any_of(options.begin(), options.end(),
                       [](const Option& o) { return o.argument && o.takes_scale; });
}

Command outline_of(const CLI::App& app) {
    return outline_of(app, {});
}

} // namespace sectio::manual
