#include "completion.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <functional>

namespace sectio::manual {

namespace {

std::string joined(const std::vector<std::string>& words) {
    return fmt::format("{}", fmt::join(words, " "));
}

/// Calls `take` with every command, the whole among them.
void each(const Command& command, const std::function<void(const Command&)>& take) {
    take(command);
    for (const Command& below : command.commands)
        each(below, take);
}

/// A case a command: the words that may stand after it, and whether ids and files do.
std::string cases_of_commands(const Command& all) {
    std::string text;
    each(all, [&](const Command& command) {
        std::vector<std::string> names, options;
        bool arguments = false;
        for (const Command& below : command.commands)
            names.push_back(below.path.back());
        for (const Option& option : command.options)
            if (option.argument)
                arguments = true;
            else
                options.push_back(option.name);
        text += fmt::format("    '{}') commands='{}' options='{}' ids={} files={} ;;\n",
                            command.joined(" "), joined(names), joined(options),
                            command.takes_scale() ? 1 : 0, arguments ? 1 : 0);
    });
    return text;
}

/// A case an option with a value: the words that it takes, or ids, or files.
std::string cases_of_options(const Command& all) {
    std::string text;
    each(all, [&](const Command& command) {
        for (const Option& option : command.options)
            if (!option.argument && option.takes_value)
                text += fmt::format("    '{} {}') offered='{}' ids={} files={} ;;\n",
                                    command.joined(" "), option.name, joined(option.values),
                                    option.takes_scale ? 1 : 0, option.values.empty() ? 1 : 0);
    });
    return text;
}

/// What bash and zsh ask alike. The braces are doubled for fmt.
constexpr const char* shared = R"(
# What stands after the command that $at names.
_sectio_command() {{
  case "$at" in
{}  esac
}}
# What stands after the option $1 of it; false where that takes no value.
_sectio_option() {{
  case "$at $1" in
{}    *) return 1 ;;
  esac
}}
_sectio_ids='{}'
# _sectio_look CURRENT PREVIOUS BEFORE…: sets `offered`, and `files` where a file may stand too.
_sectio_look() {{
  local current="$1" previous="$2" word
  shift 2
  at= offered=
  _sectio_command
  for word in "$@"; do
    case " $commands " in *" $word "*) at="${{at:+$at }}$word"; _sectio_command ;; esac
  done
  if ! _sectio_option "$previous"; then
    case "$current" in
    -*) offered=$options ids=0 files=0 ;;
    *) offered=$commands ;;
    esac
  fi
  [ "$ids" = 0 ] || offered="$offered $_sectio_ids"
}}
)";

/// For fish: true where the command line has the words of `path` and none of `below`.
std::string fish_condition(const Command& command) {
    std::vector<std::string> below;
    for (const Command& next : command.commands)
        below.push_back(next.path.back());
    std::string text;
    for (const std::string& name : command.path)
        text += (text.empty() ? "" : "; and ") + ("__fish_seen_subcommand_from " + name);
    if (!below.empty())
        text +=
            (text.empty() ? "" : "; and ") + ("not __fish_seen_subcommand_from " + joined(below));
    return text;
}

std::string quoted(const std::string& text) {
    std::string out = "'";
    for (const char c : text)
        out += c == '\'' || c == '\\' ? std::string("\\") + c : std::string(1, c);
    return out + "'";
}

std::string fish_option(const std::string& begin, const Option& option) {
    std::string text = begin + " -l " + option.name.substr(2) + " -d " + quoted(option.help);
    if (!option.takes_value)
        return text + "\n";
    if (!option.values.empty())
        return text + " -x -a " + quoted(joined(option.values)) + "\n";
    return text + (option.takes_scale ? " -r -F -a \"$__sectio_ids\"\n" : " -r -F\n");
}

} // namespace

std::string bash_completion(const Command& all, const std::vector<std::string>& ids) {
    return "# Completion of sectio in bash.\n"
           + fmt::format(shared, cases_of_commands(all), cases_of_options(all), joined(ids)) + R"(
_sectio() {
  local current="${COMP_WORDS[COMP_CWORD]}" at commands options offered ids files
  _sectio_look "$current" "${COMP_WORDS[COMP_CWORD-1]}" "${COMP_WORDS[@]:1:COMP_CWORD-1}"
  COMPREPLY=($(compgen -W "$offered" -- "$current"))
  [ "$files" = 0 ] || COMPREPLY+=($(compgen -f -- "$current"))
}
complete -o filenames -F _sectio sectio
)";
}

std::string zsh_completion(const Command& all, const std::vector<std::string>& ids) {
    return "#compdef sectio\n# Completion of sectio in zsh.\n"
           + fmt::format(shared, cases_of_commands(all), cases_of_options(all), joined(ids)) + R"(
_sectio() {
  local at commands options offered ids files
  _sectio_look "$words[CURRENT]" "$words[CURRENT-1]" "${(@)words[2,CURRENT-1]}"
  compadd -- ${=offered}
  [ "$files" = 0 ] || _files
}
_sectio "$@"
)";
}

std::string fish_completion(const Command& all, const std::vector<std::string>& ids) {
    std::string text = "# Completion of sectio in fish.\nset -g __sectio_ids " + quoted(joined(ids))
                       + "\ncomplete -c sectio -f\n";
    each(all, [&](const Command& command) {
        const std::string condition = fish_condition(command);
        const std::string begin =
            "complete -c sectio" + (condition.empty() ? "" : " -n " + quoted(condition));
        for (const Command& below : command.commands)
            text += begin + " -a " + below.path.back() + " -d " + quoted(below.help) + "\n";
        if (command.takes_scale())
            text += begin + " -F -a \"$__sectio_ids\"\n";
        else if (command.commands.empty())
            text += begin + " -F\n";
        for (const Option& option : command.options)
            if (!option.argument)
                text += fish_option(begin, option);
    });
    return text;
}

} // namespace sectio::manual
