#pragma once
/// @file
/// Private to lib/identify: factorials too large to be written out.

#include <math.h>

namespace sectio {

/// The natural logarithm of n!, `n` >= 0. std::lgamma() would write the sign into a global
/// variable, from every thread that asks.
inline double log_factorial(double n) {
    int sign = 0;
    return ::lgamma_r(n + 1, &sign);
}

} // namespace sectio
