#include <sectio/base/argument.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/base/toml.hpp>

#include <fmt/format.h>
#include <toml++/toml.h>

namespace sectio {

namespace {

/// Whether `key` is one of the names in `list`, which ", " separates.
bool is_among(std::string_view key, std::string_view list) {
    const std::size_t end = list.find(", ");
    return list.substr(0, end) == key || (end != list.npos && is_among(key, list.substr(end + 2)));
}

Place place_of(const toml::node& node, const std::string& file) {
    const auto& begin = node.source().begin;
    return {file, begin.line, begin.column};
}

TomlValue value_of(const toml::node& node, const std::string& file) {
    TomlValue value{{}, place_of(node, file)};
    if (const auto* text = node.as_string()) {
        value.value = text->get();
    } else if (const auto* whole = node.as_integer()) {
        value.value = whole->get();
    } else if (const auto* number = node.as_floating_point()) {
        value.value = number->get();
    } else if (const auto* yes = node.as_boolean()) {
        value.value = yes->get();
    } else if (const auto* array = node.as_array()) {
        TomlValue::List& list = value.value.emplace<TomlValue::List>();
        for (const toml::node& item : *array)
            list.push_back(value_of(item, file));
    } else if (const auto* table = node.as_table()) {
        TomlValue::Table& keys = value.value.emplace<TomlValue::Table>();
        for (const auto& [key, item] : *table)
            keys.emplace(std::string(key.str()), value_of(item, file));
    }
    return value;
}

} // namespace

Place TomlValue::inside() const {
    Place begin = place;
    if (begin.column != 0)
        ++begin.column;
    return begin;
}

TomlValue parse_toml(std::string_view text, const std::string& file) {
    try {
        return value_of(toml::parse(text, file), file);
    } catch (const toml::parse_error& e) {
        const auto& begin = e.source().begin;
        throw error(message::toml_syntax, "", {file, begin.line, begin.column}, e.description());
    }
}

namespace {

const TomlValue::Table& keys_of(const TomlValue& value) {
    check_argument(value.table() != nullptr, "what is read key by key", "a table");
    return *value.table();
}

} // namespace

TomlReader::TomlReader(const TomlValue& table) : table_(table), keys_(keys_of(table)) {}

const TomlValue* TomlReader::find(std::string_view key) const {
    const auto found = keys_.find(key);
    return found == keys_.end() ? nullptr : &found->second;
}

Place TomlReader::place_of(std::string_view key) const {
    const TomlValue* value = find(key);
    return !value ? place() : value->text() ? value->inside() : value->place;
}

void TomlReader::allow_only(std::string_view known) const {
    for (const auto& [key, value] : keys_)
        if (!is_among(key, known))
            throw error(message::unknown_key, key, value.place, known);
}

std::optional<std::string> TomlReader::optional_text(std::string_view key) const {
    const TomlValue* value = find(key);
    if (!value)
        return std::nullopt;
    if (const std::string* text = value->text())
        return *text;
    throw wrong_kind(*value, key, "text in quotes", fmt::format("{} = \"…\"", key));
}

const std::string& TomlReader::required_text(std::string_view key) const {
    if (!optional_text(key))
        throw error(message::missing_key, "", place(), key);
    return *find(key)->text();
}

std::vector<const TomlValue*> TomlReader::texts(std::string_view key,
                                                std::string_view example) const {
    std::vector<const TomlValue*> all;
    const TomlValue* value = find(key);
    if (!value)
        return all;
    const std::string written = fmt::format("{} = [\"{}\"]", key, example);
    if (!value->list())
        throw wrong_kind(*value, key, "a list of texts", written);
    for (const TomlValue& item : *value->list()) {
        if (!item.text())
            throw wrong_kind(item, key, "a list of texts", written);
        all.push_back(&item);
    }
    return all;
}

std::vector<std::string> TomlReader::strings(std::string_view key) const {
    std::vector<std::string> all;
    for (const TomlValue* value : texts(key))
        all.push_back(*value->text());
    return all;
}

std::optional<int> TomlReader::optional_count(std::string_view key) const {
    const TomlValue* value = find(key);
    if (!value)
        return std::nullopt;
    const auto* number = std::get_if<std::int64_t>(&value->value);
    if (!number || *number < 1 || *number > 1'000'000'000)
        throw wrong_kind(*value, key, "a whole number from 1", fmt::format("{} = 5", key));
    return static_cast<int>(*number);
}

bool TomlReader::yes(std::string_view key) const {
    const TomlValue* value = find(key);
    if (!value)
        return false;
    if (const bool* yes = std::get_if<bool>(&value->value))
        return *yes;
    throw wrong_kind(*value, key, "true or false", fmt::format("{} = true", key));
}

const TomlValue::List& TomlReader::required_list(std::string_view key,
                                                 std::string_view example) const {
    const TomlValue* value = find(key);
    if (!value)
        throw error(message::missing_key, "", place(), key);
    if (!value->list())
        throw wrong_kind(*value, key, "a list", example);
    return *value->list();
}

std::vector<TomlReader> TomlReader::tables(std::string_view key, std::string_view example) const {
    std::vector<TomlReader> readers;
    const TomlValue* value = find(key);
    if (!value)
        return readers;
    if (!value->list())
        throw wrong_kind(*value, key, "a list of tables", example);
    for (const TomlValue& item : *value->list()) {
        if (!item.table())
            throw wrong_kind(item, key, "a list of tables", example);
        readers.emplace_back(item);
    }
    return readers;
}

Error TomlReader::wrong_kind(const TomlValue& value, std::string_view key, std::string_view wanted,
                             std::string_view example) {
    return error(message::wrong_value_kind, "", value.place, key, wanted, example);
}

} // namespace sectio
