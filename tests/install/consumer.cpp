// Built against the installed headers and libraries alone; reads the installed catalogue.

#include <sectio/division/division.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/scale/catalogue.hpp>

#include <cstdlib>
#include <iostream>

namespace {

bool intervals_are_right() {
    using sectio::parse_interval;
    const sectio::Interval comma = parse_interval("12 x 3/2 - 7 x 2/1");
    std::cout << sectio::to_expression(comma) << " = " << comma.cents(6) << " cents\n";
    return comma.cents(6) == "23.460010" // J. M. Barbour, "Tuning and Temperament" (1951): 23.46
           && sectio::parse_interval("53 x 3/2 - 31 x 2/1") < sectio::Interval::from_steps(1, 53)
           && sectio::EqualDivision(53).nearest(parse_interval("3/2")) == 31;
}

/// Four fifths of quarter-comma meantone make 5/1: its definition (Pietro Aaron, 1523).
bool catalogue_is_right() {
    const sectio::Catalogue catalogue(DATA_DIR);
    const auto entry = catalogue.find("quarter-comma-meantone");
    if (!entry || !entry->scale())
        return false;
    std::cout << entry->name << ": " << entry->scale()->degrees.size() << " degrees\n";
    for (const sectio::Degree& degree : entry->scale()->degrees)
        if (4 * degree.interval == sectio::Interval::from_ratio(5))
            return true;
    return false;
}

} // namespace

int main() {
    return intervals_are_right() && catalogue_is_right() ? EXIT_SUCCESS : EXIT_FAILURE;
}
