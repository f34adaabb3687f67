#include <sectio/base/limits.hpp>
#include <sectio/desk/messages.hpp>
#include <sectio/desk/question.hpp>
#include <sectio/desk/request.hpp>

#include <algorithm>
#include <filesystem>

namespace sectio::desk {

namespace {

void check_fit(const Asked& asked) {
    const Question& question = *asked.question;
    const auto of_kind = [&](const Thing* thing) {
        return std::find(question.kinds.begin(), question.kinds.end(), thing->kind)
               != question.kinds.end();
    };
    const std::size_t count = asked.things.size();
    const bool ending = asked.ending.empty()
                        || std::find(question.endings.begin(), question.endings.end(), asked.ending)
                               != question.endings.end();
    if (count < question.least || count > question.most || !ending
        || !std::all_of(asked.things.begin(), asked.things.end(), of_kind))
        throw error(message::desk_unfit, "", {});
}

std::string value_of(const Asked& asked, const Field& field) {
    const std::string_view name = field.option.empty() ? "with" : field.option.substr(2);
    const auto found = asked.form.find(std::string(name));
    const std::string value = found == asked.form.end() ? "" : found->second;
    if (value.size() > limits::desk_text_bytes)
        throw error(message::desk_text_long, "", {std::string(field.label)},
                    limits::desk_text_bytes);
    return value == field.initial && field.kind != FieldKind::parts ? "" : value;
}

/// Options that say something else than what counts without them.
std::vector<std::string> options_of(const Asked& asked) {
    std::vector<std::string> words;
    for (const Field& field : asked.question->fields) {
        const std::string value = value_of(asked, field);
        const std::string option(field.option);
        if (value.empty() || option.empty() || value == field.initial)
            continue;
        if (field.kind == FieldKind::flag)
            words.push_back(option);
        else if (value.starts_with('-'))
            words.push_back(option + "=" + value);
        else
            words.insert(words.end(), {option, value});
    }
    return words;
}

/// What the command is about, with what stands in the field without an option.
std::vector<std::string> subjects_of(const Asked& asked) {
    std::vector<std::string> words;
    for (const Thing* thing : asked.things)
        words.push_back(thing->argument());
    for (const Field& field : asked.question->fields)
        if (const std::string value = value_of(asked, field);
            field.option.empty() && !value.empty())
            words.push_back(value);
    return words;
}

/// "goose-walk" of goose-walk.musicxml, "rast" of the entry; of a list just "scale".
std::string stem_of(const Asked& asked) {
    const Thing& first = *asked.things.front();
    if (asked.question->most > 1 && asked.ending == ".zip")
        return std::string(asked.question->id);
    if (!first.file.empty())
        return std::filesystem::path(first.file).stem().string();
    const bool id =
        first.text.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos;
    return id ? first.text : first.kind;
}

std::string out_name(const Asked& asked) {
    std::string name = safe_file_name(stem_of(asked) + std::string(asked.question->added));
    while (std::find(asked.files.begin(), asked.files.end(), name + asked.ending)
           != asked.files.end())
        name += "-new";
    return asked.ending == ".zip" ? name : name + asked.ending;
}

/// Text that could be taken for an option, or for standard input, goes after two dashes.
bool needs_dashes(const std::vector<std::string>& subjects) {
    return std::any_of(subjects.begin(), subjects.end(),
                       [](const std::string& word) { return word.starts_with('-'); });
}

std::string quoted(const std::string& word) {
    constexpr std::string_view plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                       "0123456789-_./,:=+%@#";
    if (!word.empty() && word.find_first_not_of(plain) == std::string::npos && word[0] != '#')
        return word;
    std::string text = "'";
    for (const char c : word)
        text += c == '\'' ? "'\\''" : std::string(1, c);
    return text + "'";
}

} // namespace

Command command_of(const Asked& asked) {
    check_fit(asked);
    Command command;
    command.words.assign(asked.question->command.begin(), asked.question->command.end());
    const std::vector<std::string> subjects = subjects_of(asked);
    std::vector<std::string> options = options_of(asked);
    command.folder = asked.ending == ".zip";
    if (!asked.ending.empty()) {
        command.out = out_name(asked);
        options.insert(options.end(), {"--out", command.out});
    }
    const bool dashes = needs_dashes(subjects);
    const auto append = [&](const std::vector<std::string>& more) {
        command.words.insert(command.words.end(), more.begin(), more.end());
    };
    if (asked.question->id == "divisions")
        append({"--targets"});
    else if (dashes)
        append(options), append({"--"});
    append(subjects);
    if (!dashes || asked.question->id == "divisions")
        append(options);
    return command;
}

std::string shell_text(const std::vector<std::string>& words) {
    std::string text = "sectio";
    for (const std::string& word : words)
        text += " " + quoted(word);
    return text;
}

} // namespace sectio::desk
