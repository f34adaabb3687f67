#pragma once
/// @file
/// The period drawn to scale: degrees between the marks of two divisions, further divisions below.

#include <sectio/page/page.hpp>
#include <sectio/page/set_pages.hpp>

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

/// Draws the ruler with its upper left corner at (x, y), its type `scale` times the usual size;
/// gives its height. Draws nothing where there are no lines or no marks.
double draw_ruler(const Ruler& ruler, Typesetter& type, SetPage& page, double x, double y,
                  double width, double scale = 1);

} // namespace sectio::page
