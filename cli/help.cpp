#include "help.hpp"

#include "terminal.hpp"

#include <sectio/base/edit_distance.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string_view>

namespace sectio::cli {

namespace {

/// Columns of a line at most, and of the names before what they mean.
constexpr std::size_t help_columns = 96, name_columns = 26;

/// One that works as it stands, for each command and each of those below.
const std::map<std::string, std::string>& examples() {
    static const std::map<std::string, std::string> all{
        {"interval", "sectio interval 3/2 31of53 '12 x 3/2 - 7 x 2/1'"},
        {"divisions", "sectio divisions --targets odd:15 --to 100 --records"},
        {"commas", "sectio commas --primes 7 --below 10c --vanishing-in 53"},
        {"catalogue", "sectio catalogue rast"},
        {"sheet", "sectio sheet rast --tonic D4 --out rast.pdf"},
        {"compare", "sectio compare rast just-major --tonic D4"},
        {"frets", "sectio frets just-major --length 620mm --out frets.pdf"},
        {"measure", "sectio measure pitches E4-41c 440Hz"},
        {"measure frets", "sectio measure frets 57.4mm '112mm ± 0.5mm' --length 612mm --open D4"},
        {"measure pitches", "sectio measure pitches D4 E4-29c F#4-48c --out mine.toml"},
        {"measure recording", "sectio measure recording zither.wav --drone D3 --out zither.toml"},
        {"identify", "sectio identify '0c, 171±3c, 352±3c, 501±3c, 703±4c'"},
        {"annotate", "sectio annotate tune.musicxml --scale rast --tonic D4 --out marked.musicxml"},
        {"tuning", "sectio tuning rast --tonic D4 --out rast.mid"},
        {"tuning read", "sectio tuning read rast.syx --out rast.toml"},
        {"perform", "sectio perform tune.musicxml --scale rast --tonic D4 --out tune.mid"},
        {"samples", "sectio samples notes/*.wav --out tuned"},
        {"desk", "sectio desk"},
        {"listen", "sectio listen rast --tonic D4 --drone D3 --out rast.wav"}};
    return all;
}

/// `text` broken at blanks into lines that begin after `indent` columns; the first one has its
/// indent already.
std::string filled(std::string_view text, std::size_t indent) {
    const std::size_t columns = line_columns(help_columns, help_columns);
    std::string lines;
    std::size_t column = indent;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(' '), text.size());
        if (column > indent && column + 1 + end > columns) {
            lines += "\n" + std::string(indent, ' ');
            column = indent;
        } else if (column > indent) {
            lines += ' ';
            ++column;
        }
        lines += text.substr(0, end);
        column += end;
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return lines;
}

/// A name and what it means, beside or below it.
std::string row(const std::string& name, const std::string& meaning) {
    std::string text = "  " + name;
    if (text.size() + 2 > name_columns)
        text += "\n" + std::string(name_columns, ' ');
    else
        text.resize(name_columns, ' ');
    return text + filled(meaning, name_columns) + "\n";
}

/// "words|lyric" of an option that takes one of these, else nothing. CLI11 keeps them in the text
/// of the option's type, "TEXT:{words,lyric}".
std::string choices_of(const CLI::Option& option) {
    const std::string type = option.get_type_name();
    const std::size_t begin = type.find('{'), end = type.find('}');
    if (begin == std::string::npos || end == std::string::npos)
        return "";
    std::string choices = type.substr(begin + 1, end - begin - 1);
    std::replace(choices.begin(), choices.end(), ',', '|');
    return choices;
}

std::string options_text(const CLI::App& app) {
    std::string arguments, options;
    for (const CLI::Option* option : app.get_options())
        (option->get_positional() ? arguments : options) +=
            row(name_of(*option), option->get_description());
    return (arguments.empty() ? "" : "\nWhat it takes\n" + arguments)
           + (options.empty() ? "" : "\nOptions\n" + options);
}

std::string commands_text(const CLI::App& app) {
    std::string text;
    for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
        text += row(command->get_name(), command->get_description());
    return text.empty() ? text : "\nCommands\n" + text;
}

} // namespace

std::string name_of(const CLI::Option& option) {
    if (option.get_positional())
        return option.get_name();
    const std::string name = "--" + option.get_lnames().front();
    if (option.get_expected_max() == 0)
        return name;
    if (const std::string choices = choices_of(option); !choices.empty())
        return name + " " + choices;
    std::string value = option.get_lnames().front();
    std::transform(value.begin(), value.end(), value.begin(),
                   [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
    return name + " " + value;
}

std::string usage(const CLI::App& app) {
    std::string arguments;
    for (const CLI::Option* option : app.get_options())
        if (option->get_positional())
            arguments += (option->get_required() ? " " : " [") + option->get_name()
                         + (option->get_expected_max() > 1 ? "…" : "")
                         + (option->get_required() ? "" : "]");
    if (arguments.empty() && !app.get_subcommands([](const CLI::App*) { return true; }).empty())
        arguments = " COMMAND";
    return called(app) + arguments + " [options]";
}

std::string example_of(const CLI::App& app) {
    const std::string name = called(app);
    const auto example =
        examples().find(name.substr(std::min(name.find(' '), name.size() - 1) + 1));
    return example == examples().end() ? "" : example->second;
}

std::string help_text(const CLI::App& app) {
    std::string text = filled(app.get_description(), 0) + "\n\n  " + usage(app) + "\n"
                       + commands_text(app) + options_text(app);
    if (const std::string example = example_of(app); !example.empty())
        text += "\nExample\n  " + example + "\n";
    if (app.get_parent() == nullptr)
        text += "\n`sectio COMMAND --help` and `man sectio-COMMAND` tell more about one command.\n";
    return text;
}

std::string like(const std::vector<std::string>& names, const std::string& word) {
    constexpr std::size_t most_apart = 2;
    std::string best;
    std::size_t least = most_apart + 1;
    for (const std::string& name : names) {
        const bool begins =
            word.size() > 2
            && (name.starts_with(word) || (word.starts_with(name) && name.size() > 4));
        const std::size_t apart = begins ? 0 : edit_distance(word, name);
        if (apart < least) {
            least = apart;
            best = name;
        }
    }
    return best;
}

std::vector<std::string> command_names(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
        names.push_back(command->get_name());
    return names;
}

std::vector<std::string> option_names(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::Option* option : app.get_options())
        for (const std::string& name : option->get_lnames())
            names.push_back("--" + name);
    return names;
}

std::string called(const CLI::App& app) {
    return app.get_parent() == nullptr ? app.get_name()
                                       : called(*app.get_parent()) + " " + app.get_name();
}

} // namespace sectio::cli
