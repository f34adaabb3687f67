#pragma once
/// @file
/// Private to lib/print: drawings in millimetres set on paper.

#include <sectio/page/page.hpp>
#include <sectio/print/page_pen.hpp>

namespace sectio::page {

/// The drawing whose labels say their values, rounded.
Drawing with_figures(Drawing drawing, const Digits& digits);

/// The scale at which a drawing is at most `width` points wide, at most `most`; 1 for one of true
/// size.
double drawing_scale(const Drawing& drawing, double width, double most = 1);

/// How a drawing is fitted to a page.
struct DrawingFit {
    double most_scale = 1; ///< by which it is made larger where the page is wide enough
    double least_type = 2; ///< points below which no label is made smaller to fit its box
};

/// Draws all of it with its upper left corner at (x, y) points.
void draw_at(const Drawing& drawing, Typesetter& type, TypesetPage& page, double x, double y,
             double scale, const DrawingFit& fit = {});

/// Height in points that draw_drawing() takes on the pages; of a drawing that needs several, what
/// it takes of the last.
double drawing_height(const Drawing& drawing, const PagePen& pen, const DrawingFit& fit);

/// Draws it below what is on the page, or on the next where it does not fit. One of true size that
/// is larger than the paper is cut into pages that share joining lines.
void draw_drawing(const Drawing& drawing, PagePen& pen, const DrawingFit& fit);

} // namespace sectio::page
