#pragma once
/// @file
/// The cells of a table in text. Source: RFC 4180, with semicolons and tabs
/// as separators too.

#include <sectio/base/error.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace sectio {

struct Cell {
    std::string text; ///< without spaces at its ends
    Place place;
};

using Row = std::vector<Cell>;

/// What stands between the cells of `text`: the first of tab, semicolon and comma that its first
/// line has outside quotes; lines that are empty or begin with # do not count. A comma where none
/// of them stands.
char cell_separator(std::string_view text);

/// The rows that are not empty. Lines that begin with # are remarks.
/// @throws Error not_utf8 with the place of the cell
std::vector<Row> read_rows(std::string_view text, const std::string& file_name);

} // namespace sectio
