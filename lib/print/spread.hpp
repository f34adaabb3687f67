#pragma once
/// @file
/// Private to lib/print: places for labels on a line: none over its neighbour, and none left out
/// but by a rule.

#include <vector>

namespace sectio::page {

/// Where labels go so that none overlaps its neighbour and each stays as near to the place it is
/// for as that allows (least squares); all within `low` and `high` where they fit there. `places`
/// rise; label i is `widths[i]` wide, its surroundings included. Returns the middles.
std::vector<double> spread(const std::vector<double>& places, const std::vector<double>& widths,
                           double low, double high);

/// The smallest of 1, 5, 10, 50, 100, … (for counts up to 24: 1, 2, 5, 10, …) marks that are at
/// least `least` apart where single ones are `distance` apart.
double mark_interval(double distance, long count, double least);

} // namespace sectio::page
