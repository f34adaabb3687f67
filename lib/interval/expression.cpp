// How the parts of an expression are joined: stacks, terms, quotients, powers and parentheses.

#include <sectio/base/messages.hpp>
#include <sectio/interval/expression_parser.hpp>
#include <sectio/interval/messages.hpp>

namespace sectio {

ExpressionParser::ExpressionParser(std::string_view text, const Place& place,
                                   const NameLookup& names, BareNumber bare)
    : in_(text, place), names_(names), bare_(bare) {
    if (text.size() > limits::expression_characters)
        throw error(message::expression_too_long, "", place, limits::expression_characters);
}

Interval ExpressionParser::whole_text() {
    in_.skip_spaces();
    if (in_.at_end())
        throw in_.failure(message::empty_expression, in_.position());
    Interval result = stack().interval;
    expect_nothing_more();
    return result;
}

ExpressionParser::Part ExpressionParser::stack() {
    std::vector<Interval> parts;
    Kind kind = Kind::plain;
    bool descending = in_.accept(U'-');
    for (bool more = true; more;) {
        const std::size_t start = skip_to_part();
        const Part part = term();
        kind = parts.empty() ? part.kind : Kind::plain;
        if (part.kind == Kind::whole && bare_ == BareNumber::refused && nesting_ == 0)
            throw in_.failure(message::size_needs_unit, start, trimmed(in_.written(start)));
        parts.push_back(descending ? -part.interval : part.interval);
        descending = !in_.accept(U'+');
        more = !descending || in_.accept(U'-');
    }
    return {sum(std::move(parts)), kind == Kind::whole ? kind : Kind::plain};
}

/// A loop, so that `2 x 2 x …` of any length needs no deep call stack.
ExpressionParser::Part ExpressionParser::term() {
    Integer times = 1;
    for (;;) {
        const std::size_t start = skip_to_part();
        const std::string digits = in_.digits();
        if (digits.empty() || !times_sign()) {
            in_.rewind(start);
            Part part = quotient();
            if (times != 1)
                part.interval = times * part.interval;
            return part;
        }
        times *= whole(digits, start, limits::exponent_bits);
        if (bit_length(times) > limits::exponent_bits)
            throw in_.failure(message::exponent_too_large, start, limits::exponent_bits);
        in_.skip_spaces();
        if (in_.at_end())
            throw in_.failure(message::expected_repeated, in_.position());
    }
}

/// The `x` of `12 x 3/2`; not the first letter of a name.
bool ExpressionParser::times_sign() {
    in_.skip_spaces();
    if (in_.peek() != U'x' || is_letter(in_.peek(1)))
        return false;
    in_.skip();
    return true;
}

ExpressionParser::Part ExpressionParser::quotient() {
    const bool may_be_product = is_digit(in_.peek());
    const Part above = power();
    if (above.kind == Kind::other)
        return above;
    if (may_be_product && power_follows())
        return {product_of_powers(above.interval, above.kind != Kind::whole), Kind::plain};
    if (!in_.accept(U'/') && !in_.accept(U':'))
        return above;
    const std::size_t start = in_.position();
    in_.skip_spaces();
    if (in_.at_end() || !(is_digit(in_.peek()) || in_.peek() == U'('))
        throw in_.failure(message::expected_denominator, in_.at_end() ? start : in_.position());
    const Part below = power();
    if (below.kind == Kind::other)
        throw in_.failure(message::expected_denominator, start);
    return {above.interval - below.interval, Kind::plain};
}

ExpressionParser::Part ExpressionParser::power() {
    Part base = primary();
    while (in_.accept(U'^')) {
        base.interval = base.interval * exponent();
        if (base.kind == Kind::whole)
            base.kind = Kind::plain;
    }
    return base;
}

/// True where, after a blank, a number stands here that no slash makes a ratio. The blank may have
/// been skipped already.
bool ExpressionParser::power_follows() {
    in_.skip_spaces();
    const std::size_t start = in_.position();
    if (!is_digit(in_.peek()))
        return false;
    in_.rewind(start - 1);
    const bool apart = in_.peek() == U' ';
    in_.rewind(start);
    in_.digits();
    const char32_t after = in_.peek();
    in_.rewind(start);
    return apart && (after == U'^' || after == U' ' || after == U'\0');
}

/// The rest of `2^-4 3^4 5^-1`, the way in which factors are printed. One of the numbers at least
/// has an exponent: `3 2` is more likely a ratio that lacks its slash.
Interval ExpressionParser::product_of_powers(const Interval& first, bool raised) {
    const std::size_t second = skip_to_part();
    std::vector<Interval> powers{first};
    do {
        const std::size_t start = skip_to_part();
        const Part next = power();
        if (next.kind == Kind::other)
            throw in_.failure(message::unexpected_text, start);
        raised = raised || next.kind != Kind::whole;
        powers.push_back(next.interval);
    } while (power_follows());
    if (!raised)
        throw in_.failure(message::unexpected_text, second);
    return sum(std::move(powers));
}

Rational ExpressionParser::exponent() {
    in_.skip_spaces();
    const std::size_t start = in_.position();
    const bool grouped = in_.accept(U'(');
    const bool negative = in_.accept(U'-');
    Rational value = decimal_number(message::expected_exponent);
    if (grouped && in_.accept(U'/')) {
        in_.skip_spaces();
        const std::size_t below = in_.position();
        const Rational denominator = decimal_number(message::expected_exponent);
        if (denominator.numerator() == 0)
            throw in_.failure(message::zero_denominator, below);
        value /= denominator;
    }
    if (grouped && !in_.accept(U')'))
        throw in_.failure(message::missing_parenthesis, start);
    return negative ? Rational(-value) : value;
}

ExpressionParser::Part ExpressionParser::parenthesis(std::size_t start) {
    if (++nesting_ > limits::expression_nesting)
        throw in_.failure(message::nested_too_deep, start, limits::expression_nesting);
    in_.skip();
    Part inside = stack();
    refuse_multiplication();
    if (!in_.accept(U')')) {
        in_.skip_spaces();
        throw in_.at_end() ? in_.failure(message::missing_parenthesis, start)
                           : in_.failure(message::unexpected_text, in_.position());
    }
    --nesting_;
    return inside;
}

/// `*`, or an `x` that stands between two intervals.
void ExpressionParser::refuse_multiplication() {
    in_.skip_spaces();
    const char32_t next = in_.peek(1);
    if (in_.peek() == U'*' || (in_.peek() == U'x' && (next == U' ' || is_digit(next))))
        throw in_.failure(message::multiplication_sign, in_.position());
}

void ExpressionParser::expect_nothing_more() {
    refuse_multiplication();
    in_.expect_end();
}

namespace {

Interval parse(std::string_view text, const Place& place, const NameLookup& names,
               ExpressionParser::BareNumber bare) {
    try {
        return ExpressionParser(text, place, names, bare).whole_text();
    } catch (const Error& e) {
        // Limits of the engine (too many factors, huge exponents) know no place of their own.
        if (e.place().column != 0)
            throw;
        throw Error(e.id(), e.message(), e.advice(), std::string(text), place);
    }
}

} // namespace

Interval parse_interval(std::string_view text, const Place& place, const NameLookup& names) {
    return parse(text, place, names, ExpressionParser::BareNumber::ratio);
}

std::optional<Interval> try_parse_interval(std::string_view text, const NameLookup& names) {
    try {
        return parse_interval(text, {}, names);
    } catch (const Error& e) {
        if (e.code() != ErrorCode::unusable)
            throw;
        return std::nullopt;
    }
}

Interval parse_size(std::string_view text, const Place& place, const NameLookup& names) {
    return parse(text, place, names, ExpressionParser::BareNumber::refused);
}

} // namespace sectio
