#include <sectio/instrument/fret_page.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio {

std::string name_of(const FretPlan& plan, const Stop& stop) {
    constexpr std::size_t short_enough = 9;
    const Degree& degree = plan.degree_of(stop);
    const bool closes = degree.interval.is_unison() && stop.degree != 0;
    if (!degree.name.empty())
        return degree.name;
    if (!degree.note.empty())
        return degree.note;
    const std::string written = closes && plan.scale.period ? to_expression(*plan.scale.period)
                                : degree.written.empty()    ? to_expression(degree.interval)
                                                            : degree.written;
    return written.size() <= short_enough ? written : fmt::format("degree {}", stop.degree);
}

std::string short_name(const FretPlan& plan, const Stop& stop) {
    constexpr std::size_t most = 7;
    const std::string name = name_of(plan, stop);
    return name.size() <= most ? name : fmt::to_string(stop.degree);
}

std::string names_of(const FretPlan& plan, const PlannedFret& fret) {
    std::vector<std::string> names;
    for (const Stop& stop : fret.stops)
        if (const std::string name = name_of(plan, stop);
            std::find(names.begin(), names.end(), name) == names.end())
            names.push_back(name);
    return fmt::format("{}", fmt::join(names, ", "));
}

} // namespace sectio
