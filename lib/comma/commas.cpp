#include <sectio/approx/messages.hpp>
#include <sectio/base/error.hpp>
#include <sectio/comma/commas.hpp>
#include <sectio/comma/messages.hpp>
#include <sectio/comma/tempered_out.hpp>

namespace sectio {

std::vector<Exponents> commas(const CommaBounds& bounds, const Progress& progress) {
    if (bounds.above < Interval())
        throw error(message::above_falling, to_expression(bounds.above), {});
    if (!(bounds.above < bounds.below))
        throw error(message::window_empty, to_expression(bounds.below), {});
    RatioBounds ratios{bounds.prime_limit, bounds.above,       bounds.below, false,      false,
                       bounds.max_term,    bounds.max_product, std::nullopt, bounds.only};
    if (bounds.tempered_out_in)
        ratios.vanishing = small_val(*bounds.tempered_out_in);
    return ratios_within(ratios, progress);
}

CommaSteps steps_of_comma(const Interval& comma, const EqualDivision& division, const Val& map) {
    return {map.steps_of(comma), division.nearest(comma)};
}

} // namespace sectio
