#pragma once
/// @file
/// The period drawn to scale: degrees between the marks of two divisions, further divisions below.

#include <sectio/page/page.hpp>
#include <sectio/page/set_pages.hpp>

namespace sectio::page {

/// Draws the ruler with its upper left corner at (x, y), its type `scale` times the usual size;
/// gives its height. Draws nothing where there are no lines or no marks.
double draw_ruler(const Ruler& ruler, Typesetter& type, SetPage& page, double x, double y,
                  double width, double scale = 1);

} // namespace sectio::page
