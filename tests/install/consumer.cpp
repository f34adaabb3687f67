// Built against the installed headers and libraries alone.

#include <sectio/division/division.hpp>
#include <sectio/interval/expression.hpp>

#include <cstdlib>
#include <iostream>

int main() {
    using sectio::parse_interval;
    const sectio::Interval comma = parse_interval("12 x 3/2 - 7 x 2/1");
    const bool right = comma.cents(6) == "23.460010"
                       && parse_interval("53 x 3/2 - 31 x 2/1") < sectio::Interval::steps(1, 53)
                       && sectio::EqualDivision(53).nearest(parse_interval("3/2")) == 31;
    std::cout << sectio::to_expression(comma) << " = " << comma.cents(6) << " cents\n";
    return right ? EXIT_SUCCESS : EXIT_FAILURE;
}
