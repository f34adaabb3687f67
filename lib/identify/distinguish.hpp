#pragma once
/// @file
/// Private to lib/identify: what would tell the candidates of an ambiguous answer apart.

#include <sectio/identify/identify.hpp>

namespace sectio {

/// Of the candidates that are `named`: for those of exactly equal pitches the tonic, the dominant
/// or the direction; for the others the degree that differs most, in cents above `counted_from`.
std::vector<Distinction> distinctions(const std::vector<Candidate>& candidates,
                                      const std::string& counted_from);

} // namespace sectio
