#pragma once
/// @file
/// Private to lib/interval: logarithms of ratios as whole numbers, which are several times quicker
/// than those of any precision where some fifty digits are wanted.

#include <sectio/base/number.hpp>

namespace sectio {

/// The most bits after the point that fixed_log2() gives.
inline constexpr long fixed_log2_bits = 512;

/// What fixed_log2() gives differs from the truth by less than this power of two.
inline constexpr long fixed_log2_error = 7;

/// 2^bits * log2(above / below) as a whole number, by less than 2^fixed_log2_error off.
/// Preconditions: above, below >= 1; 0 < bits <= fixed_log2_bits.
Integer fixed_log2(const Integer& above, const Integer& below, long bits);

} // namespace sectio
