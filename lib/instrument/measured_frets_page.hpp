#pragma once
/// @file
/// Measured frets as a page.

#include <sectio/instrument/measured_frets.hpp>
#include <sectio/instrument/measured_page.hpp>

namespace sectio {

/// The pitches of `list`, which fret_pitches() made of `frets`: the open string, then one a fret,
/// with the places and, where it is known, what the stretch adds.
page::Page measured_frets_page(const PitchList& list, const MeasuredFrets& frets, const Pitch& a4);

} // namespace sectio
