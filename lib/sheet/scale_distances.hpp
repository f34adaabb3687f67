#pragma once
/// @file
/// Private to lib/sheet: how far each of several scales lies from each other, as matrices and as a
/// drawing.

#include <sectio/page/page.hpp>
#include <sectio/scale/difference.hpp>

#include <vector>

namespace sectio {

/// Two matrices, from the same tonic and where they fit best: the RMS error of the scale of the
/// column, nearest degree by nearest degree, for the degrees of the scale of the row. So the
/// distance there and the distance back differ.
std::vector<page::Table> distance_tables(const std::vector<Scale>& scales);

/// All of them from the same tonic on lines to scale over the first one's period, and dashed lines
/// down from the degrees of the first.
page::Drawing scales_drawing(const std::vector<Scale>& scales);

} // namespace sectio
