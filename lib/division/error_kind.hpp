#pragma once
/// @file
/// What a division is judged by, and the divisions that are.

#include <cstdint>

namespace sectio {

/// What is made small.
enum class ErrorKind {
    max,      ///< the largest absolute error
    rms,      ///< the root of the mean square of all errors
    relative, ///< the largest absolute error in steps of the division: at most half a step
};

/// Divisions `from` … `to` of a period.
struct DivisionRange {
    std::int64_t from = 1, to = 100;
};

/// @throws Error division_range_empty, division_out_of_range
void check_range(DivisionRange range);

} // namespace sectio
