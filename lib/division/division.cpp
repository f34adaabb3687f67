#include <sectio/base/limits.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/division/division.hpp>
#include <sectio/division/messages.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/interval/messages.hpp>

#include <cmath>

namespace sectio {

namespace {

/// The nearest step by doubles, where their error cannot change it.
std::optional<Integer> quick_nearest(const Interval& target, const Interval& period,
                                     const Integer& steps) {
    const Interval::Estimate size = target.estimate(), whole = period.estimate();
    // A period whose estimate is mostly error (a comma of huge powers) is no use to divide by.
    if (!(whole.error_bound < whole.value * 0x1p-10))
        return std::nullopt;
    const double n = steps.convert_to<double>();
    const double x = n * size.value / whole.value;
    // First-order relative errors of the two estimates add up; three roundings of 2^-53 each, and
    // the second-order terms (the period's is below 2^-10 of the first), stay below the factor 2
    // and the last summand.
    const double error =
        2 * n / whole.value
            * (size.error_bound + std::abs(size.value / whole.value) * whole.error_bound)
        + std::abs(x) * 0x1p-50;
    const double nearest = std::nearbyint(x);
    const bool sure = std::abs(x) < 0x1p50 && std::abs(x - nearest) + error < 0.5;
    return sure ? std::optional(Integer(static_cast<long>(nearest))) : std::nullopt;
}

} // namespace

EqualDivision::EqualDivision(Integer steps, Interval period)
    : steps_(std::move(steps)), period_(std::move(period)) {
    if (steps_ < 1)
        throw sectio::error(message::zero_division, steps_.str(), {});
    if (!(period_ > Interval()))
        throw sectio::error(message::period_not_rising, to_expression(period_), {});
}

Integer EqualDivision::nearest(const Interval& target) const {
    if (const auto step = quick_nearest(target, period_, steps_))
        return *step;
    // Half a step down, exact halves going down: the smallest k with k >= x - 1/2.
    if (const auto quotient = exact_quotient(target, period_))
        return -floor(Rational(1, 2) - *quotient * steps_);
    return certified_round([&](long bits) {
        return target.octaves(bits) * Enclosure(steps_, bits) / period_.octaves(bits);
    });
}

std::string EqualDivision::text() const {
    return period_ == Interval::octave() ? steps_.str()
                                         : steps_.str() + " of " + to_expression(period_);
}

EqualDivision parse_division(std::string_view text, const Place& place) {
    TextCursor in(text, place);
    in.skip_spaces();
    const std::size_t start = in.position();
    const std::string digits = in.digits();
    if (digits.empty() || digits.size() > 18)
        throw in.failure(message::expected_division, start, limits::division_steps);
    const Integer steps = parse_decimal(digits).numerator();
    if (steps < 1)
        throw in.failure(message::zero_division, start);
    if (steps > limits::division_steps)
        throw in.failure(message::expected_division, start, limits::division_steps);
    const std::size_t end = in.position();
    in.skip_spaces();
    if (in.at_end())
        return EqualDivision(steps);
    const std::size_t period_start = in.position();
    if (in.peek() != U'(') // 12.5 is wrong as a whole, and of `12 tones` the second word
        throw in.failure(message::expected_division, period_start == end ? start : period_start,
                         limits::division_steps);
    const Interval period = parse_interval(in.rest(), in.place(period_start));
    if (!(period > Interval()))
        throw in.failure(message::period_not_rising, period_start);
    return EqualDivision(steps, period);
}

} // namespace sectio
