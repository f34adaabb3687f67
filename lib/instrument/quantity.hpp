#pragma once
/// @file
/// Private to lib/instrument: a number with a unit that is no length.

#include <sectio/base/error.hpp>
#include <sectio/base/number.hpp>

#include <span>
#include <string_view>

namespace sectio {

/// A unit and what one of it is in the unit that is wanted.
struct QuantityUnit {
    std::string_view name;
    std::string_view factor; ///< a decimal, exact
};

/// Newton; kilogram-force and pound-force, exact by definition (ISO 80000-4:2019 and NIST SP 811,
/// B.8, from memory).
inline constexpr QuantityUnit tension_units[]{
    {"N", "1"}, {"kg", "9.80665"}, {"kgf", "9.80665"}, {"lb", "4.4482216152605"}};
/// Grams a metre.
inline constexpr QuantityUnit unit_mass_units[]{{"g/m", "1"}, {"kg/m", "1000"}};
/// Gigapascal.
inline constexpr QuantityUnit modulus_units[]{{"GPa", "1"}, {"MPa", "0.001"}};

/// Reads a positive decimal and one of `units`; the number is then in the unit of factor 1.
/// @throws Error expected_quantity
Rational parse_quantity(std::string_view text, std::span<const QuantityUnit> units,
                        const Place& place);

} // namespace sectio
