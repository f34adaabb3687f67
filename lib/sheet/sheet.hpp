#pragma once
/// @file
/// The player's page: a scale on its tonic, degree by degree, against equal divisions.

#include <sectio/page/page.hpp>
#include <sectio/scale/comparison.hpp>

#include <optional>
#include <string>

namespace sectio {

struct SheetOptions {
    std::string date; ///< of the figures, as it shall be printed; ISO 8601 "2026-03-21" is also the
                      ///< PDF's date of creation
    std::optional<bool> strings; ///< whether to print the caution about strings; where nothing is
                                 ///< said, a measured scale gets it
};

/// The sheet of a comparison: facts, ruler, table of degrees, errors of the divisions, notes.
page::Page sheet_page(const Comparison& comparison, const SheetOptions& options = {});

/// "53", and "13 of 3/1" for another period than the octave, as people read it.
std::string division_name(const EqualDivision& division);
/// 53, or "13(3/1)", as a program takes it.
page::Cell division_cell(const EqualDivision& division);

} // namespace sectio
