#pragma once
/// @file
/// The headings of a table: which column is which, and which nobody asked for.

#include <sectio/base/csv.hpp>
#include <sectio/base/number.hpp>

#include <cstddef>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sectio {

/// Headings are compared without case, diacritics, spaces, hyphens, underscores, points and
/// brackets: "Offset (cents)" is "offsetcents".
class TableHead {
  public:
    explicit TableHead(const Row& row);

    /// The column of the first of `names` that there is; it counts as understood.
    std::optional<std::size_t> find(std::initializer_list<std::string_view> names);

    /// A column whose heading is a name, or a name and a unit: `nut_mm`, `nut (mm)`.
    struct WithUnit {
        std::size_t at = 0;
        std::string unit; ///< of the bare numbers below, or empty
    };
    std::optional<WithUnit> find_with_unit(std::initializer_list<std::string_view> names,
                                           std::initializer_list<std::string_view> units);

    /// A word on the columns that nobody found, or nothing.
    std::vector<std::string> remarks() const;
    /// A row may have empty cells after those that have a heading, and no others.
    /// @throws Error table_row_long
    void check(const Row& row) const;

  private:
    Row row_;
    std::vector<std::string> names_;
    std::vector<bool> understood_;
};

/// @throws Error table_row_long where cells after the first `most` hold anything
void check_width(const Row& row, std::size_t most);

/// Columns that Sectio's own tables have beside those that are read.
inline const std::initializer_list<std::string_view> companion_columns = {
    "file",
    "notename",
    "degree",
    "nextcents",
    "readings",
    "spreadcents",
    "fromnutmm",
    "stretchcents",
    "basis",
    "centsexact",
    "hzexact",
    "deviationcents",
    "deviationcentsexact",
    "uncertaintycentsexact",
    "uncertaintyexact",
    "uncertainty",
    "uncertaintycents",
    "fromnutmmexact",
    "stretchcentsexact",
    "pitchuncertaintycents",
    "pitchuncertaintycentsexact",
    "referencehz",
    "writtennote"};

/// Headings of notes, in German, Italian, Spanish and Turkish too.
inline const std::initializer_list<std::string_view> note_names = {"note", "pitch", "ton", "nota"};
/// Headings of what a tuner's needle shows, each also with a unit after it.
inline const std::initializer_list<std::string_view> deviation_names = {
    "deviation", "dev", "offset", "reading", "error", "difference", "diff", "abweichung", "off"};
inline const std::initializer_list<std::string_view> cents_units = {"cents", "cent", "ct", "c",
                                                                    "¢"};

/// True for a decimal number as tables have it: with a sign, and with a comma as decimal sign where
/// commas do not separate the cells.
bool is_table_number(std::string_view text, char separator);
/// Its value; the text must be one.
Rational table_number(std::string_view text);
/// The text of a cell, such as "112,5 mm ± 0,5 mm", with points as decimal signs, where commas are
/// that and separate no cells.
std::string with_point(const std::string& number, char separator);

} // namespace sectio
