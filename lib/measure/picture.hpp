#pragma once
/// @file
/// The picture of a recording: its pitch over time against the pitches found, the histogram beside.

#include <sectio/measure/heard_pitches.hpp>
#include <sectio/page/page.hpp>

#include <string>

namespace sectio::measure {

/// Of the first recording. Cents count from the tonic.
page::Page picture_page(const Hearing& hearing, const Pitch& a4);

/// A drawing as PNG, 8 dots a millimetre, white ground. @throws std::bad_alloc
std::string print_png(const page::Drawing& drawing);

} // namespace sectio::measure
