#pragma once
/// @file
/// Pitches on lines to scale, one line below the other: how scales lie to each other.

#include <sectio/page/page.hpp>

#include <string>
#include <vector>

namespace sectio::page {

struct DegreeMark {
    double cents = 0;
    std::string label{}; ///< below the line; left out where it has no room
};

struct DegreeRow {
    std::string name;
    bool bold = false; ///< the name
    std::vector<DegreeMark> marks;
};

/// A line for each row, from `low` to `high` in cents; marks beyond are left out. Marks of the
/// first row are heavy, and dashed lines lead down from them through the rows below.
/// @pre low < high, rows not empty
Drawing degree_rows(const std::vector<DegreeRow>& rows, double low, double high);

} // namespace sectio::page
