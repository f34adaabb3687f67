#pragma once
/// @file
/// The player's page: a scale on its tonic, degree by degree, against equal divisions.

#include <sectio/page/page.hpp>
#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/comparison.hpp>
#include <sectio/sheet/staff.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sectio {

struct SheetOptions {
    std::string date{}; ///< of the figures, as it shall be printed; ISO 8601 "2026-03-21" is also
                        ///< the PDF's date of creation
    std::optional<bool> strings{}; ///< whether to print the caution about strings; where nothing is
                                   ///< said, a measured scale gets it
    std::vector<std::string> pages{"ruler", "table"}; ///< as parse_sheet_pages() gives them
    std::optional<score::Clef> clef{}; ///< of the page `staff`; this and the next two as
    std::optional<SignStyle> signs{};  ///< StaffOptions has them
    bool large = false;
    std::optional<Pitch> drone{};          ///< that the degrees beat against; else the tonic
    std::optional<unsigned> prime_limit{}; ///< of the simple ratios on the page `matrix`
    std::vector<Scale> systems{}; ///< to compare with beside the divisions, from the same tonic
    bool frequencies = false;     ///< whether people see each degree's frequency
    std::optional<page::Drawing> chart{}; ///< of the instrument, where the scale is one's
    const Catalogue* catalogue = nullptr; ///< for names and sources; else Catalogue::installed()

    StaffOptions staff() const { return {clef, signs, large}; }
    const Catalogue& names() const { return catalogue ? *catalogue : Catalogue::installed(); }
};

/// The names of the pages that a sheet may have, for --help: "ruler, table, matrix, …, all".
std::string sheet_page_names();
/// "ruler,table,matrix" as names. @throws Error unknown_page with the names that there are
std::vector<std::string> parse_sheet_pages(std::string_view text, const Place& place = {});

/// The sheet of a comparison: facts, then the pages asked for. `ruler` and `table` (with the errors
/// of the divisions) share the first page; every other begins its own.
/// @throws Error as the makers of parts.hpp, too_many_divisions where divisions and systems are
/// more than limits::compared_divisions
page::Page sheet_page(const Comparison& comparison, const SheetOptions& options = {});

/// `system` counted from its degree called `name` (compared folded), so that both scales agree
/// where they name a tonic alike; as it is where there is none such, or no period. What then lies a
/// period above the degree that has its name says so: "Yegâh 8va".
Scale counted_from(Scale system, std::string_view name);

/// "53", and "13 of 3/1" for another period than the octave, as people read it.
std::string division_name(const EqualDivision& division);
/// 53, or "13(3/1)", as a program takes it.
page::Cell division_cell(const EqualDivision& division);

} // namespace sectio
