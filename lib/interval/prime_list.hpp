#pragma once
/// @file
/// The small primes, which prime limits are made of.

#include <vector>

namespace sectio {

inline constexpr unsigned most_sieved = 1'000'000;

/// The primes up to `limit`, ascending. @throws Error unfit_argument beyond most_sieved
std::vector<unsigned> primes_up_to(unsigned limit);

} // namespace sectio
