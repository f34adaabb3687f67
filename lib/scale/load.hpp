#pragma once
/// @file
/// SCALE as commands take it: a catalogue id, a scale file, "-" for standard input, or intervals
/// separated by commas.

#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/scale.hpp>

#include <istream>
#include <string>

namespace sectio {

/// Finds out what `text` is and reads it. A catalogue id goes first, then an existing file, then a
/// list of intervals; `input` is read for "-".
/// @throws Error with place and advice
Scale load_scale(const std::string& text, const Catalogue& catalogue, std::istream& input,
                 DegreeOrder order = DegreeOrder::rising);

/// The degrees of a division as a scale: 0of12, 1of12, …
/// @throws Error too_many_degrees
Scale as_scale(const EqualDivision& division);

} // namespace sectio
