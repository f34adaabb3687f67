#pragma once
/// @file
/// How well equal divisions approximate targets, as a page.

#include <sectio/base/progress.hpp>
#include <sectio/division/error_table.hpp>
#include <sectio/page/page.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace sectio {

/// Some divisions of an error table, in the order in which they are shown.
struct DivisionRanking {
    ErrorTable table;
    std::string targets; ///< as they were asked for: "odd:15"
    std::vector<std::int64_t> divisions;
    std::optional<ErrorKind> records; ///< they are the records of this error
    Progress progress = {};           ///< is told of each row while the page is printed
};

/// The targets for programs, a row a division, and for a drawing the maximum error of each division
/// against its number, where there are enough of them to see a course.
/// @throws Error rounding_undecided when it is printed
page::Page division_ranking_page(const DivisionRanking& ranking);

} // namespace sectio
