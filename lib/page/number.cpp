#include <sectio/base/argument.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/interval/real.hpp>
#include <sectio/page/cell.hpp>
#include <sectio/page/numbers.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace sectio::page {

namespace {

int borne_by_width(const HalfWidth& half_width, int digits) {
    return std::visit([&](const auto& width) { return borne_digits(width, digits); }, half_width);
}

/// Of two half widths the one that supports fewer digits.
HalfWidth wider(const HalfWidth& a, const HalfWidth& b) {
    constexpr int enough = 12;
    return borne_by_width(a, enough) <= borne_by_width(b, enough) ? a : b;
}

/// So many digits more a frequency needs until the last is worth no more than that of its cents: a
/// cent is hertz/1731.2. An estimate will do, since any number of digits is correctly rounded.
int digits_beside_cents(const Pitch& pitch) {
    constexpr double most = 12;
    const double needed = std::ceil(std::log10(1731.234 / pitch.hertz_estimate()));
    return static_cast<int>(std::clamp(needed, 0.0, most));
}

/// Within what any number may have; more than that is refused where it was asked for.
int added(int digits, int more) {
    return std::max(digits, std::min(digits + more, limits::decimal_digits));
}

std::string without_zero_sign(std::string number) {
    const bool zero = number.find_first_not_of("-0.") == std::string::npos;
    return zero && number.starts_with('-') ? number.substr(1) : number;
}

} // namespace

Number::Number(Rounding rounding) : rounding_(std::move(rounding)) {
    check_function(rounding_, "what rounds a figure");
}
Number::Number(const Number&) = default;
Number::Number(Number&&) noexcept = default;
Number& Number::operator=(const Number&) = default;
Number& Number::operator=(Number&&) noexcept = default;
Number::~Number() = default;

Number Number::borne_by(const std::optional<HalfWidth>& half_width) && {
    if (half_width)
        half_width_ = half_width_ ? wider(*half_width_, *half_width) : *half_width;
    return std::move(*this);
}

Number Number::with_sign() && {
    sign_ = true;
    return std::move(*this);
}

Number Number::shown_with(int digits) && {
    shown_ = digits;
    return std::move(*this);
}

Number Number::with_at_most(int digits) && {
    most_ = digits;
    return std::move(*this);
}

Number Number::with_more(int digits) && {
    more_ = digits;
    return std::move(*this);
}

Number Number::in(std::string unit) && {
    unit_ = std::move(unit);
    return std::move(*this);
}

int Number::borne(int digits) const {
    const int possible = std::min(digits, most_.value_or(digits));
    return half_width_ ? borne_by_width(*half_width_, possible) : possible;
}

/// `most` digits after the point, those after the first `least` without zeros at their end.
std::string Number::with_all_but_zeros(int least, int most) const {
    std::string number = rounding_(most);
    const auto more = static_cast<std::size_t>(std::max(0, most - least));
    const std::size_t end = number.size() - std::min(more, number.size());
    number.erase(std::max(end, number.find_last_not_of('0') + 1));
    if (number.ends_with('.'))
        number.pop_back();
    return number;
}

std::string Number::for_people(const Digits& digits) const {
    const int wanted = digits.asked ? digits.people : shown_.value_or(digits.people);
    const std::string number = digits.asked
                                   ? with_all_but_zeros(borne(wanted), borne(added(wanted, more_)))
                                   : rounding_(borne(wanted));
    return (sign_ ? sectio::with_sign(number) : true_minus(number))
           + (unit_.empty() ? "" : " " + unit_);
}

std::string Number::for_programs(const Digits& digits) const {
    return with_all_but_zeros(borne(digits.programs), borne(added(digits.programs, more_)));
}

std::string Number::unborne(const Digits& digits) const {
    constexpr int exact = 9;
    const int least = std::min(digits.programs, most_.value_or(digits.programs));
    const int most = added(std::max(least, exact), more_);
    return with_all_but_zeros(least, std::min(most, most_.value_or(most)));
}

// Captured as `interval = interval`, a copy is not const, so that the figure can be moved.
Number cents(const Interval& interval) {
    return Number([interval = interval](int digits) { return interval.cents(digits); });
}

Number hertz(const Pitch& pitch, const std::optional<Interval>& half_width) {
    return Number([pitch = pitch](int digits) { return pitch.hertz(digits); })
        .with_more(digits_beside_cents(pitch))
        .borne_by(half_width ? std::optional(HalfWidth(half_width_in_hertz(pitch, *half_width)))
                             : std::nullopt);
}

Number number(const Rational& value) {
    return Number([value = value](int digits) { return decimal(value, digits); });
}

Number root(const Rational& square) {
    return Number(Real::root_of(square));
}

Number computed(double value, int most_digits) {
    check_argument(std::isfinite(value) && most_digits >= 0, "a figure",
                   "a finite number with 0 digits or more");
    return Number([value](int digits) {
               return without_zero_sign(fmt::format("{:.{}f}", value, digits));
           })
        .with_at_most(most_digits);
}

Number margin(const HalfWidth& half_width) {
    const auto up = [half_width = half_width](int digits) {
        if (const auto* interval = std::get_if<Interval>(&half_width))
            return margin_cents(*interval, digits);
        return margin_text(std::get<Rational>(half_width), digits);
    };
    return Number(up).borne_by(half_width);
}

} // namespace sectio::page
