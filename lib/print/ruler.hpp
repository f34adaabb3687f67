#pragma once
/// @file
/// Private to lib/print: the period drawn to scale: degrees between the marks of two divisions,
/// further divisions below.

#include <sectio/page/page.hpp>
#include <sectio/print/typeset_pages.hpp>

namespace sectio::page {

struct RulerType {
    double scale = 1; ///< times the usual size
    double least = 0; ///< points below which no name is made smaller to fit
};

/// Draws the ruler with its upper left corner at (x, y); gives its height. Draws nothing where
/// there are no lines or no marks.
double draw_ruler(const Ruler& ruler, Typesetter& type, TypesetPage& page, double x, double y,
                  double width, const RulerType& sizes = {});

} // namespace sectio::page
