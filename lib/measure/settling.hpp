#pragma once
/// @file
/// Private to lib/measure: the part of a note whose pitch has settled.

#include <sectio/measure/phase_slope.hpp>

#include <span>
#include <vector>

namespace sectio::measure {

/// A partial that is followed through a note.
struct Followed {
    int number;
    double power;
    double hidden; ///< amplitude of what is hidden at the same place, as a part of its own
    PartialPhase phase;
    Frequency whole; ///< over all frames
};

/// A part of the note, and how its pitch lies beside that of the whole.
struct Block {
    double cents = 0;
    double variance = 0;
    double power = 0;
};

using Blocks = std::span<const Block>;

struct Mean {
    double cents = 0, variance = 0, chi2 = 0;
    int count = 0;
};

/// Weighted by the blocks' variances.
Mean mean_of(Blocks blocks);

/// Variance of the mean by which the pitch wanders beyond its errors (R. T. Birge, "The calculation
/// of errors by the method of least squares", Physical Review 40, 1932); 0 where χ² is no larger
/// than chance makes it once in twenty times.
double wander(const Mean& mean);

/// A note of so many frames in equal parts.
std::vector<Block> blocks_of(const std::vector<Followed>& followed, std::size_t frames);

/// The blocks between those at the start, where the pitch still falls (or rises) to what it settles
/// at, and those at the end, where it leaves for another; half of them at least. What is bowed or
/// sung wanders without settling: its calmest part is not the note.
Blocks settled_of(Blocks blocks);

} // namespace sectio::measure
