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
    Lanes pull{};           ///< sum of responsibility * deviation * precision
    Lanes precision{};      ///< sum of responsibility * precision
};

/// A bit a degree, by word and lane.
using LaneDegrees = std::vector<std::array<std::uint64_t, lanes>>;
std::size_t count_of(const LaneDegrees& degrees, std::size_t lane);
bool holds(const LaneDegrees& degrees, std::size_t degree, std::size_t lane);

/// Adds up the pitches, each about the degree that it is `held` by, or about another where a shift
/// moves it nearer to that. `peaks` has the peak of the core of each pitch; `used` becomes the
/// degrees that pitches lie on.
LaneTotals added_up(const LibraryScale& scale, const std::vector<LanePitch>& pitches,
                    const std::vector<LibraryScale::Held>& held, const std::vector<Lanes>& peaks,
                    const Lanes& shifts, LaneDegrees& used);

} // namespace sectio
