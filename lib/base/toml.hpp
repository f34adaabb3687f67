#pragma once
/// @file
/// TOML 1.0 documents as values with their places, and a reader of one table's keys.

#include <sectio/base/error.hpp>

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace sectio {

/// One value of a TOML document. Dates and times are of no kind known here.
struct TomlValue {
    using List = std::vector<TomlValue>;
    using Table = std::map<std::string, TomlValue, std::less<>>;

    std::variant<std::monostate, std::string, std::int64_t, double, bool, List, Table> value;
    Place place; ///< where it begins

    const std::string* text() const { return std::get_if<std::string>(&value); }
    const List* list() const { return std::get_if<List>(&value); }
    const Table* table() const { return std::get_if<Table>(&value); }
    /// Where the characters of a text begin, after its quotation mark.
    Place inside() const;
};

/// Reads a document, whose value is a table; `file` stands in errors.
/// @throws Error toml_syntax
TomlValue parse_toml(std::string_view text, const std::string& file);

/// Makes a T of a text and its place.
template <typename T>
inline constexpr auto read_as =
    [](std::string_view text, const Place& place) { return T(text, place); };

/// Reads the keys of one table. Every error tells file, line and column, and what to write instead.
class TomlReader {
  public:
    /// `table` must outlive the reader.
    /// @throws Error unfit_argument for a value that is no table
    explicit TomlReader(const TomlValue& table);

    const Place& place() const { return table_.place; }
    /// The value of a key, or nothing.
    const TomlValue* find(std::string_view key) const;
    /// Where a text's characters begin, or the table where the key is absent.
    Place place_of(std::string_view key) const;
    /// @throws Error unknown_key for a key that is not among `known`, separated by ", "
    void allow_only(std::string_view known) const;

    /// @throws Error wrong_value_kind
    std::optional<std::string> optional_text(std::string_view key) const;
    /// What `read` makes of the text and its place, where the key is there.
    template <typename Read>
    auto optional(std::string_view key, Read read) const
        -> std::optional<decltype(read(std::string_view(), Place()))> {
        const auto text = optional_text(key);
        if (!text)
            return std::nullopt;
        return read(*text, place_of(key));
    }
    /// @throws Error missing_key, wrong_value_kind
    const std::string& required_text(std::string_view key) const;
    /// A list of texts, each with its place; empty where the key is absent. `example` is one of
    /// them.
    std::vector<const TomlValue*> texts(std::string_view key, std::string_view example = "…") const;
    std::vector<std::string> strings(std::string_view key) const;
    /// A whole number from 1 to 1 000 000 000.
    std::optional<int> optional_count(std::string_view key) const;
    /// False where the key is absent.
    bool yes(std::string_view key) const;
    /// The list of a key that must be there. @throws Error missing_key, wrong_value_kind
    const TomlValue::List& required_list(std::string_view key, std::string_view example) const;
    /// Readers of the tables in a list `key`, `[[key]]`; none where it is absent.
    /// @throws Error wrong_value_kind
    std::vector<TomlReader> tables(std::string_view key, std::string_view example) const;

    /// "the value of `key` must be {wanted}; write {example}".
    static Error wrong_kind(const TomlValue& value, std::string_view key, std::string_view wanted,
                            std::string_view example);

  private:
    const TomlValue& table_;
    const TomlValue::Table& keys_;
};

} // namespace sectio
