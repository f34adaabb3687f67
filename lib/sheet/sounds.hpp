#pragma once
/// @file
/// What a sheet lets its reader hear.

#include <sectio/page/sounds.hpp>
#include <sectio/scale/tuned_scale.hpp>

namespace sectio {

/// The degrees of `scale`, each between its keys in 12 equal steps from the reference, over a drone
/// an octave below the tonic.
page::Sounds sounds_of(const TunedScale& scale);

} // namespace sectio
