#pragma once
/// @file
/// Private to lib/measure: the cells of a table in text. Source: RFC 4180, with semicolons and tabs
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

/// The rows that are not empty. The separator is the first of tab, semicolon and comma that the
/// first row has outside quotes. Lines that begin with # are remarks.
std::vector<Row> read_rows(std::string_view text, const std::string& file_name);

} // namespace sectio
