#pragma once
/// @file
/// Private to lib/scale: TOML values with their places, and the keys of a scale.

#include <sectio/scale/scale.hpp>

#include <toml++/toml.h>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sectio::toml_reader {

/// A table being read: knows the file's name and the line that the text begins at.
class Reader {
  public:
    Reader(const toml::table& table, std::string file, std::size_t first_line = 1)
        : table_(table), file_(std::move(file)), first_line_(first_line) {}

    const toml::table& table() const { return table_; }
    Place place(const toml::node& node) const;
    Place place_of_table() const { return place(table_); }
    /// Where the characters of a string begin, behind its quotation mark.
    Place place_inside(const toml::node& string) const;

    std::string required_string(std::string_view key) const;
    std::optional<std::string> optional_string(std::string_view key) const;
    std::vector<std::string> strings(std::string_view key) const;
    /// A list of intervals in quotes; empty where the key is absent.
    std::vector<Interval> intervals(std::string_view key) const;
    std::optional<int> optional_count(std::string_view key) const;
    std::optional<Interval> optional_interval(std::string_view key, const NameLookup& names) const;
    /// A reader of a table that stands inside this one.
    Reader inside(const toml::table& table) const { return {table, file_, first_line_}; }
    /// @throws Error unknown_key for a key that is not among `known`, separated by ", "
    void allow_only(std::string_view known) const;

    Error wrong_kind(const toml::node& node, std::string_view key, std::string_view wanted,
                     std::string_view example) const;

  private:
    /// The list `key`, all of texts; empty where it is absent.
    const toml::array& texts(std::string_view key, std::string_view example) const;

    const toml::table& table_;
    std::string file_;
    std::size_t first_line_;
};

/// Parses `text`, which begins at `first_line` of `file`. @throws Error toml_syntax
toml::table parse(std::string_view text, const std::string& file, std::size_t first_line = 1);

/// Reads period and degrees into `scale` and completes it.
void read_degrees(const Reader& reader, Scale& scale, const NameLookup& names, DegreeOrder order);

} // namespace sectio::toml_reader
