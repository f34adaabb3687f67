#pragma once
/// @file
/// Private to lib/sheet: the names that theory has for steps of a division.

#include <sectio/division/division.hpp>
#include <sectio/scale/catalogue.hpp>

#include <map>
#include <string>

namespace sectio {

/// Steps 1 to `count` of the division by the catalogue's interval that they stand for: one that is
/// the step itself, else of those that a step is nearest to and at most a quarter of a step away
/// from, first of primes up to 5, the one with the smallest product of its terms. Most steps of a
/// fine division have none.
std::map<long, std::string> step_names(const EqualDivision& division, long count,
                                       const Catalogue& catalogue);

} // namespace sectio
