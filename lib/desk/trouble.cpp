#include <sectio/desk/messages.hpp>
#include <sectio/desk/trouble.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <set>

namespace sectio::desk {

namespace {

using Json = nlohmann::json;

std::string replaced(std::string text, std::string_view from, std::string_view to) {
    for (std::size_t at = text.find(from); at != text.npos; at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
    return text;
}

const Field* field_of(const Question* question, const std::string& option) {
    if (!question || option.empty())
        return nullptr;
    const auto found = std::find_if(question->fields.begin(), question->fields.end(),
                                    [&](const Field& field) { return field.option == option; });
    return found == question->fields.end() ? nullptr : &*found;
}

/// Fields by their labels; `others` is set where an option is no field.
std::string by_labels(const std::string& text, const Question* question, bool& others) {
    std::string labelled;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t begin = std::min(text.find("--", at), text.size());
        const std::size_t end =
            std::min(text.find_first_not_of("-abcdefghijklmnopqrstuvwxyz", begin), text.size());
        labelled += text.substr(at, begin - at);
        const std::string option = text.substr(begin, end - begin);
        const Field* field = field_of(question, option);
        others |= !field && option.size() > 2;
        labelled += field ? fmt::format("“{}”", field->label) : option;
        at = end;
    }
    return labelled;
}

/// What can be done about it on a page; may be empty.
std::string cure_of(const std::string& advice, const Question* question) {
    const std::string cure = replaced(advice, "look scales up with `sectio catalogue --kind scale`",
                                      "find a scale by typing a part of its name");
    bool others = cure.find("`sectio ") != cure.npos;
    const std::string labelled = by_labels(cure, question, others);
    return others ? "" : labelled;
}

std::size_t number(const Json& of) {
    return of.is_number_unsigned() ? of.get<std::size_t>() : 0;
}

std::string told_text(const std::string& line, const Question* question) {
    const Json json = Json::parse(line, nullptr, false);
    if (!json.is_object() || !json.contains("error"))
        return line;
    const Json &told = json["error"], &where = told["where"];
    return trouble_text(Error(message::desk_unknown, // any: it is not looked at
                              told["what"], told["cure"], told["piece"],
                              {where["source"], number(where["line"]), number(where["column"])}),
                        question);
}

} // namespace

std::string trouble_text(const Error& error, const Question* question) {
    // What these arguments of commands are is seen on the page.
    static const std::set<std::string_view> unnamed{"SCALE", "typed", "--targets"};
    bool others = false;
    Place place = error.place();
    if (unnamed.contains(place.source))
        place = {};
    else if (place.source.starts_with("--"))
        place.column = 0; // the piece is enough in a field
    return by_labels(
        Error(error.id(), error.message(), cure_of(error.advice(), question), error.piece(), place)
            .what(),
        question, others);
}

std::string trouble_text(std::string_view told, const Question* question) {
    std::string text;
    while (!told.empty()) {
        const std::size_t end = std::min(told.find('\n'), told.size());
        if (!text.empty())
            text += '\n';
        text += told_text(std::string(told.substr(0, end)), question);
        told.remove_prefix(std::min(end + 1, told.size()));
    }
    return text;
}

} // namespace sectio::desk
