#pragma once
/// @file
/// The picture of a recording: its pitch over time against the pitches found, the histogram beside.

#include <sectio/measure/heard_pitches.hpp>
#include <sectio/page/page.hpp>

namespace sectio::measure {

/// Of the first recording. Cents count from the tonic.
page::Page picture_page(const Hearing& hearing, const Pitch& a4);

} // namespace sectio::measure
