#pragma once
/// @file
/// The small primes, which prime limits are made of.

#include <vector>

namespace sectio {

/// The primes up to `limit`, ascending.
std::vector<unsigned> primes_up_to(unsigned limit);

} // namespace sectio
