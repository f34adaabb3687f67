#pragma once
/// @file
/// The cells of a table in text. Source: RFC 4180, with semicolons and tabs
/// as separators too.

#include <sectio/base/error.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace sectio {

struct CsvCell {
    std::string text; ///< without spaces at its ends
    Place place;
};

using Row = std::vector<CsvCell>;

/// Whether a spreadsheet would run `text` as a formula: its first character besides blanks, and
/// marks of such a text, is one of = + - @. Source: OWASP, "CSV Injection" (from memory).
bool looks_like_formula(std::string_view text);

/// What stands between the cells of `text`: the first of tab, semicolon and comma that its first
/// line has outside quotes; lines that are empty or begin with # do not count. A comma where none
/// of them stands.
char cell_separator(std::string_view text);

/// The rows that are not empty. Lines that begin with # are remarks. A cell that begins with ' and
/// would look like a formula without it is read without it, as spreadsheets show it.
/// @throws Error not_utf8 with the place of the cell
std::vector<Row> read_rows(std::string_view text, const std::string& file_name);

} // namespace sectio
