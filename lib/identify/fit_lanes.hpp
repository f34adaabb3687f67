#pragma once
/// @file
/// Private to lib/identify: a set on one scale, weighed for several spreads side by side.

#include <sectio/identify/library.hpp>

#include <array>
#include <cstdint>
#include <vector>

namespace sectio {

/// Spreads that are weighed at once, each at a shift of its own: as many numbers as the widest
/// registers hold. Lanes without a spread say nothing.
inline constexpr std::size_t lanes = 8;
using Lanes = std::array<double, lanes>;

/// A pitch as each spread sees it.
struct LanePitch {
    double cents, weight;
    Lanes precision; ///< 1 over the variance of the spread and of the measurement
};

/// What pitches come to.
struct LaneTotals {
    Lanes likelihood;       ///< of the last ones, a product
    Lanes log_likelihood{}; ///< of the others
    Lanes precision{};      ///< sum of responsibility * precision
};

/// A bit a degree, by word and lane.
using LaneDegrees = std::vector<std::array<std::uint64_t, lanes>>;
std::size_t count_of(const LaneDegrees& degrees, std::size_t lane);
bool holds(const LaneDegrees& degrees, std::size_t degree, std::size_t lane);

/// A pitch for the quick score: its place on the circle, and what it gains by its distance from the
/// nearest degree, weight * (peak - sharpness * distance^2) where that is positive.
struct QuickPitch {
    double at, weight, sharpness;
    double left; ///< what this and all later ones can gain, and a little more
};

/// Adds up what the pitches gain at each shift, and how many gain anything. Where none can come to
/// `least` any more, the rest is left out.
void add_gains(const LibraryScale& scale, const std::vector<QuickPitch>& pitches, double peak,
               const Lanes& shifts, double least, Lanes& score, Lanes& matched);
/// How far the pitches lie from the nearest degrees at most, at each shift; not all are looked at
/// where none of the shifts keeps them within `most`.
Lanes farthest_of(const LibraryScale& scale, const std::vector<QuickPitch>& pitches,
                  const Lanes& shifts, double most);

/// Adds up the pitches, each about the degree that it is `held` by, or about another where a shift
/// moves it nearer to that. `peaks` has the peak of the core of each pitch; `used` becomes the
/// degrees that pitches lie on.
LaneTotals added_up(const LibraryScale& scale, const std::vector<LanePitch>& pitches,
                    const std::vector<LibraryScale::Held>& held, const std::vector<Lanes>& peaks,
                    const Lanes& shifts, LaneDegrees& used);

/// Moves each shift to where the pitches' responsibilities for the degrees pull it, `steps` times.
void follow_pulls(const LibraryScale& scale, const std::vector<LanePitch>& pitches,
                  const std::vector<LibraryScale::Held>& held, const std::vector<Lanes>& peaks,
                  int steps, Lanes& shifts);

} // namespace sectio
