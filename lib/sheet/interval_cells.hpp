#pragma once
/// @file
/// Private to lib/sheet: cells that several pages have for an interval.

#include <sectio/page/cell.hpp>
#include <sectio/scale/catalogue.hpp>

#include <vector>

namespace sectio {

/// Of cents, where people see sizes as programs do: they ask for one interval or a list of small
/// ones.
inline constexpr int usual_digits = 3;

/// Prime and exponent, for programs: a whole exponent as a number, another as text.
page::Cell factors_cell(const Factors& factors);

/// Name, source and id of each, for programs.
page::Cell names_cell(const std::vector<Entry>& entries);

} // namespace sectio
