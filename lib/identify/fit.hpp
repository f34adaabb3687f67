#pragma once
/// @file
/// Private to lib/identify: how well one scale, placed somewhere, accounts for a set of pitches.
/// The model is stated in docs/identification.md.

#include <sectio/identify/fit_lanes.hpp>
#include <sectio/identify/library.hpp>

#include <array>
#include <numbers>
#include <optional>
#include <vector>

namespace sectio {

/// A pitch of the set as the statistics see it.
struct PitchOfSet {
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
static_assert(std::size(spreads) <= lanes);
/// Logarithm of the factor for each degree of a scale that no pitch lies on.
inline constexpr double log_unused = -std::numbers::ln2; // of 1/2
} // namespace model

/// A scale laid on the set with its first degree `shift` cents above the first pitch.
struct Placement {
    double shift = 0;
    /// Natural logarithm of the evidence, per uniform density of `shift` in cents, relative to
    /// pitches spread evenly over the circle.
    double log_evidence = 0;
    double spread = 0; ///< the most probable spread
};

/// What a placement says of each pitch.
struct PitchFit {
    std::size_t degree = 0;
    double deviation = 0; ///< pitch minus degree, in cents
    bool matched = false; ///< belongs to the degree rather than being an outlier
};

/// The pitches that propose places: the heaviest, earlier ones first.
std::vector<PitchOfSet> anchors_of(const std::vector<PitchOfSet>& set);

/// A set made ready to be laid on many scales, which must outlive this; for one thread.
class PitchSetFit {
  public:
    PitchSetFit(const std::vector<PitchOfSet>& set, const std::vector<double>& spreads);

    /// The best places of `scale` under the set by a quick robust score, at most `most` of them and
    /// none below `least`, to be read until the next call; of a scale that repeats within its
    /// period the lowest of equal ones. log_evidence holds the quick score.
    const std::vector<Placement>& quick_placements(const LibraryScale& scale, std::size_t most,
                                                   double least);
    /// Where every pitch lies within 8 cents of a degree, to be read until the next call.
    const std::vector<double>& close_shifts(const LibraryScale& scale);
    /// The quick score where all pitches lie on degrees.
    double best_quick(const LibraryScale& scale);

    /// Moves a placement to its optimum for each spread and integrates over both.
    Placement refined(const LibraryScale& scale, double shift);

    std::vector<PitchFit> pitch_fits(const LibraryScale& scale, const Placement& placement) const;

  private:
    /// What is the same for all scales of one size class.
    struct Size {
        std::vector<Lanes> peaks; ///< of the core, by pitch and spread
        /// By the number of degrees that pitches lie on, what that means for the evidence.
        std::vector<double> log_drawn;
    };
    /// The pitches for scales of one size class.
    struct QuickSet {
        std::size_t size_class;
        double peak;
        std::vector<double> drawn; ///< by the number of pitches on degrees, more for the evidence
        double most_drawn;
        std::vector<QuickPitch> pitches;
    };
    double strewn_over(const LibraryScale& scale) const;
    double log_peak(const LibraryScale& scale, double sigma) const;
    const Size& size_of(const LibraryScale& scale);
    const QuickSet& quick_set(const LibraryScale& scale);
    void anchor(const LibraryScale& scale, double cents);
    Lanes shifts_from(std::size_t first) const;
    /// Degrees within the range of the pitches that nothing lies on.
    std::size_t count_unused(const LibraryScale& scale, double shift, std::size_t spread) const;
    bool lies_exactly(const LibraryScale& scale, double shift);
    double evidence(const LibraryScale& scale, const Size& size, const LaneTotals& totals,
                    double shift, std::size_t spread) const;

    const std::vector<PitchOfSet>& set_;
    std::vector<PitchOfSet> anchors_; ///< the pitches that propose places
    double lowest_, highest_;
    double weight_; ///< of all pitches
    std::vector<double> spreads_;
    std::vector<LanePitch> pitches_;
    std::vector<Size> sizes_; ///< by size class, made when first asked for
    std::optional<QuickSet> quick_;
    std::vector<Placement> tried_, kept_;
    std::vector<double> close_;
    std::vector<double> shifts_;           ///< that let a pitch lie on a degree
    std::vector<LibraryScale::Held> held_; ///< by pitch: where refining begins
    std::vector<double> logs_;             ///< of the evidence, by spread
    LaneDegrees used_;
};

} // namespace sectio
