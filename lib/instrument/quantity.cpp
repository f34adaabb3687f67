#include <sectio/base/limits.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/instrument/messages.hpp>
#include <sectio/instrument/quantity.hpp>

#include <algorithm>
#include <string>

namespace sectio {

namespace {

/// The decimal that stands here; 0 where none does.
Rational decimal_here(TextCursor& in) {
    in.skip_spaces();
    std::string digits = in.digits();
    if (digits.empty())
        return 0;
    if (in.peek() == U'.' && is_digit(in.peek(1))) {
        in.skip();
        digits += "." + in.digits();
    }
    return parse_decimal(digits);
}

} // namespace

Rational parse_quantity(std::string_view text, std::span<const QuantityUnit> units,
                        const Place& place) {
    const QuantityUnit& first = units.front();
    const Error wrong = error(message::expected_quantity, text, place, first.name);
    if (character_count(text) > limits::length_characters)
        throw wrong;
    TextCursor in(text, place);
    const Rational number = decimal_here(in);
    const std::string_view unit = trimmed(in.rest());
    const auto found = std::find_if(units.begin(), units.end(),
                                    [unit](const QuantityUnit& u) { return u.name == unit; });
    if (number.numerator() <= 0 || found == units.end())
        throw wrong;
    return number * parse_decimal(found->factor);
}

} // namespace sectio
