#pragma once
/// @file
/// Bounds of commas, shortly said.

#include <sectio/comma/commas.hpp>

#include <support/intervals.hpp>

namespace support {

/// Commas of a prime limit above one size and below another; the terms are not bounded yet.
inline sectio::CommaBounds window(unsigned prime_limit, const char* above, const char* below) {
    sectio::CommaBounds bounds;
    bounds.prime_limit = prime_limit;
    bounds.above = interval(above);
    bounds.below = interval(below);
    return bounds;
}

} // namespace support
