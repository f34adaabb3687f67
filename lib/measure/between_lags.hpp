#pragma once
/// @file
/// Private to lib/measure: a function of whole lags, between them.

#include <cstddef>
#include <span>

namespace sectio::measure {

/// Where a maximum lies, and how high it is.
struct Top {
    float lag = 0;
    float value = 0;
};

/// The maximum near `lag` of the band-limited function that goes through these values, of lags from
/// 0 on; below 0 it mirrors itself, as correlations do.
///
/// A parabola through three values would not do: of a sound with partials up to half the rate a
/// maximum is only a sample or two wide, and one between two lags would seem so much lower than one
/// on a lag that twice the period could pass for clearer than the period.
///
/// It is known at quarters of a lag by a windowed sinc of 16 values (C. E. Duchon, "Lanczos
/// filtering in one and two dimensions", Journal of Applied Meteorology 18, 1979; from memory), and
/// a parabola lies between those. Within 8 of the end it is a parabola alone.
/// @pre 0 < lag < function.size() - 1, and no neighbour is larger than function[lag]
Top top_near(std::span<const float> function, std::size_t lag);

} // namespace sectio::measure
