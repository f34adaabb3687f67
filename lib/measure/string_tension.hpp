#pragma once
/// @file
/// How hard a string pulls.

#include <sectio/base/error.hpp>
#include <sectio/base/length.hpp>
#include <sectio/interval/pitch.hpp>

#include <optional>
#include <string>
#include <vector>

namespace sectio::measure {

/// What is known of a plain string, one that is not wound.
struct PlainString {
    std::optional<Length> length, gauge; ///< that sounds, and the diameter; above 0
    std::string material{};              ///< one of string_materials(), or nothing

    bool unknown() const { return !length && !gauge && material.empty(); }
    /// What is not known of this one is as in `other`.
    PlainString or_as(const PlainString& other) const;
};

/// "steel", "brass" and so on.
std::vector<std::string> string_materials();

/// How hard the string pulls where it sounds at `pitch`, in newtons: T = ρ π d² L² f², which is
/// M. Mersenne's law (Harmonie universelle, 1636; from memory) with the mass of a round string.
/// Densities are nominal, so that the third digit is open (kg/m³, from memory: steel 7850, brass
/// 8500, bronze 8800, gut 1300, nylon 1140, fluorocarbon 1780).
/// @throws Error string_partly_known, unknown_material, string_measure
double tension_newtons(const PlainString& string, const Pitch& pitch, const Place& place = {});

} // namespace sectio::measure
