#pragma once
/// @file
/// Private to lib/sheet: what a sheet lets its reader hear.

#include <sectio/page/sounds.hpp>
#include <sectio/scale/tuned_scale.hpp>

#include <optional>

namespace sectio {

/// The degrees of `scale`, each between its keys in 12 equal steps from the reference, over
/// `drone`, else over the pitch an octave below the tonic.
page::Sounds sounds_of(const TunedScale& scale, const std::optional<Pitch>& drone = std::nullopt);

} // namespace sectio
