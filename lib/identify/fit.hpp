#pragma once
/// @file
/// Private to lib/identify: how well one scale, placed somewhere, accounts for a set of pitches.
/// The model is stated in docs/identification.md.

#include <sectio/identify/library.hpp>

#include <vector>

namespace sectio {

/// A pitch of the set as the statistics see it.
struct SetPitch {
    double cents = 0;    ///< above the first pitch
    double variance = 0; ///< of its measurement, in cents squared
    double weight = 1;   ///< the weights add up to the number of different pitches
};

/// Figures of the model, each with its reason in docs/identification.md.
namespace model {
/// Share of pitches that belong to no degree.
inline constexpr double stray = 0.05;
/// Spreads in cents (standard deviation of one pitch), and how probable each is before the pitches
/// are looked at: first those of what is computed and written in hundredths of a cent or finer
/// (1/sqrt(12) of one), where all pitches are the scale's, and in whole cents; then those of
/// practice: the wider, the less, since a wide one finds a scale in any set.
inline constexpr double spreads[]{0.003, 0.29, 2.5, 5, 10, 20};
inline constexpr double spread_shares[]{0.01, 0.04, 0.35, 0.35, 0.225, 0.025};
inline constexpr std::size_t computed_spreads = 2;
/// Factor for each degree of a scale that no pitch lies on.
inline constexpr double unused_degree = 0.5;
} // namespace model

/// A scale laid on the set with its first degree `shift` cents above the first pitch.
struct Placement {
    double shift = 0;
    /// Natural logarithm of the evidence, per uniform density of `shift` in cents, relative to
    /// pitches strewn evenly over the circle.
    double log_evidence = 0;
    double spread = 0; ///< the most probable spread
};

/// The best places of `scale` under the set by a quick robust score, at most `most` of them and
/// none that falls `below` under the scale's best. log_evidence holds the quick score.
std::vector<Placement> quick_placements(const LibraryScale& scale, const std::vector<SetPitch>& set,
                                        std::size_t most);

/// Moves a placement to its optimum for each spread and integrates over both.
Placement refined(const LibraryScale& scale, const std::vector<SetPitch>& set, double shift,
                  const std::vector<double>& spreads);

/// What a placement says of each pitch.
struct PitchFit {
    std::size_t degree = 0;
    double deviation = 0; ///< pitch minus degree, in cents
    bool matched = false; ///< belongs to the degree rather than being a stray
};
std::vector<PitchFit> pitch_fits(const LibraryScale& scale, const std::vector<SetPitch>& set,
                                 const Placement& placement);

} // namespace sectio
