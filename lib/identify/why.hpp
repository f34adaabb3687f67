#pragma once
/// @file
/// Private to lib/identify: why one scale accounts for a melody better than another.

#include <sectio/identify/identify.hpp>
#include <sectio/identify/progression.hpp>

namespace sectio {

/// A scale as it lies on a melody.
struct Laid {
    const LibraryScale& scale;
    const StageTables& tables;
    int tonic; ///< bin of its first degree
};

/// What speaks most for `first` and against `other`, two reasons at most, the stronger one first.
std::vector<Reason> reasons(const Progression& progression, const Laid& first, const Laid& other);

} // namespace sectio
