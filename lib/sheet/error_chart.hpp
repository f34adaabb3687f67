#pragma once
/// @file
/// Private to lib/sheet: errors of equal divisions against their number, as a drawing.

#include <sectio/sheet/division_ranking.hpp>

namespace sectio {

/// The maximum error in cents of each division of the ranking, on logarithmic axes where they span
/// much, those without error at its foot; those that are better than every smaller one in it are
/// dots with their number. Nothing for fewer than three divisions, or where none errs.
std::optional<page::Drawing> error_chart(const DivisionRanking& ranking);

} // namespace sectio
