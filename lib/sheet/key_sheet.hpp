#pragma once
/// @file
/// A table for the music desk: written notes and how far each deviates, in type that is read from a
/// standing position.

#include <sectio/page/page.hpp>

#include <string>
#include <vector>

namespace sectio {

/// One written note.
struct KeyRow {
    std::string written;   ///< "F♯", "B −1 comma"
    std::string deviation; ///< cents, signed
    std::string from;      ///< the note of 12 equal steps that it counts from
    std::string count;     ///< how often the score has it
};

struct KeySheet {
    std::string title;
    std::vector<std::string> facts; ///< a line each, under the title
    std::vector<KeyRow> rows;
    std::vector<std::string> notes; ///< below the table
    std::string date;               ///< ISO 8601; also the PDF's date of creation
};

/// The table in type of at most 16 points.
page::Page key_page(const KeySheet& sheet);

} // namespace sectio
