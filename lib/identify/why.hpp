#pragma once
/// @file
/// Private to lib/identify: why one scale accounts for a melody better than another.

#include <sectio/identify/course.hpp>
#include <sectio/identify/identify.hpp>

namespace sectio {

/// A scale as it lies on a melody.
struct Laid {
    const LibraryScale& scale;
    const StageTables& tables;
    int tonic; ///< bin of its first degree
};

/// What speaks most for `first` and against `other`, two reasons at most, the stronger one first.
std::vector<Reason> reasons(const Course& course, const Laid& first, const Laid& other);

} // namespace sectio
