#include <sectio/measure/messages.hpp>
#include <sectio/measure/string_tension.hpp>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string_view>

namespace sectio::measure {

namespace {

struct Material {
    std::string_view name;
    double density; ///< kg/m³
};

constexpr Material materials[]{{"steel", 7850}, {"brass", 8500}, {"bronze", 8800},
                               {"gut", 1300},   {"nylon", 1140}, {"fluorocarbon", 1780}};

double density(const std::string& material, const Place& place) {
    for (const Material& known : materials)
        if (known.name == material)
            return known.density;
    throw error(message::unknown_material, material, place,
                fmt::format("{}", fmt::join(string_materials(), ", ")));
}

double metres(const Length& length, const Place& place) {
    if (length <= Length())
        throw error(message::string_measure, length.text(), place);
    return boost::rational_cast<double>(length.millimetres()) / 1000;
}

} // namespace

PlainString PlainString::or_as(const PlainString& other) const {
    return {length ? length : other.length, gauge ? gauge : other.gauge,
            material.empty() ? other.material : material};
}

std::vector<std::string> string_materials() {
    std::vector<std::string> names;
    for (const Material& known : materials)
        names.emplace_back(known.name);
    return names;
}

double tension_newtons(const PlainString& string, const Pitch& pitch, const Place& place) {
    if (!string.length || !string.gauge || string.material.empty())
        throw error(message::string_partly_known, "", place);
    const double length = metres(*string.length, place), gauge = metres(*string.gauge, place);
    const double mass = density(string.material, place) * std::numbers::pi / 4 * gauge * gauge;
    return mass * std::pow(2 * length * pitch.hertz(), 2);
}

} // namespace sectio::measure
