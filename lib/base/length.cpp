#include <sectio/base/length.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/base/text_cursor.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace sectio {

namespace {

struct Unit {
    std::string_view name;
    Rational millimetres;
};

const Unit* unit_called(std::string_view name) {
    static const Unit units[]{{"mm", 1},
                              {"cm", 10},
                              {"m", 1000},
                              {"in", Rational(127, 5)},
                              {"inch", Rational(127, 5)},
                              {"inches", Rational(127, 5)},
                              {"\"", Rational(127, 5)},
                              {"″", Rational(127, 5)}};
    const auto* found = std::find_if(std::begin(units), std::end(units),
                                     [&](const Unit& unit) { return unit.name == name; });
    return found == std::end(units) ? nullptr : found;
}

/// Reads one length from a cursor and leaves it after it.
class LengthReader {
  public:
    explicit LengthReader(TextCursor& cursor) : cursor_(cursor) {}

    /// The number, whose unit is yet to come.
    Rational number() {
        const bool negative = cursor_.accept('-');
        cursor_.skip_spaces();
        begin_ = cursor_.position();
        const Rational whole = plain();
        const Rational size = cursor_.peek() == U'/' ? fraction(whole) : whole + rest();
        return negative ? Rational(-size) : size;
    }

    /// The unit, if one stands next.
    const Unit* unit() {
        cursor_.skip_spaces();
        const std::size_t begin = cursor_.position();
        if (cursor_.peek() == U'"' || cursor_.peek() == U'″')
            cursor_.skip();
        else
            while (is_letter(cursor_.peek()))
                cursor_.skip();
        if (cursor_.position() == begin)
            return nullptr;
        const std::string_view name = cursor_.written(begin);
        const Unit* found = unit_called(name == "”" || name == "“" ? "\"" : name);
        if (!found)
            throw cursor_.failure(message::unknown_length_unit, begin);
        return found;
    }

    Error without_unit() const {
        const std::string_view written = trimmed(cursor_.written(begin_));
        return error(message::length_without_unit, written, cursor_.place(begin_), written);
    }

  private:
    /// Digits, with a point and digits after them if wanted.
    Rational plain() {
        std::string text = cursor_.digits();
        if (text.empty())
            throw cursor_.failure(message::expected_length, cursor_.position());
        if (cursor_.peek() == U',' && is_digit(cursor_.peek(1)))
            throw cursor_.failure(message::length_decimal_comma, begin_);
        if (cursor_.peek() == U'.' && is_digit(cursor_.peek(1))) {
            cursor_.skip();
            decimal_ = true;
            text += "." + cursor_.digits();
        }
        return parse_decimal(text);
    }

    /// `above` over the whole number after the slash.
    Rational fraction(const Rational& above) {
        cursor_.skip();
        const std::size_t begin = cursor_.position();
        const std::string below = cursor_.digits();
        if (below.empty() || parse_decimal(below).numerator() == 0)
            throw cursor_.failure(message::expected_length, begin);
        return above / parse_decimal(below);
    }

    /// The fraction after a whole number, as in 24 1/2 and 24-1/2; 0 where none follows.
    Rational rest() {
        const std::size_t begin = cursor_.position();
        if (!decimal_) {
            cursor_.accept('-');
            cursor_.skip_spaces();
            const bool apart = cursor_.position() > begin; // 241/2 is no 24 1/2
            const std::string above = cursor_.digits();
            if (apart && !above.empty() && cursor_.peek() == U'/')
                return fraction(parse_decimal(above));
        }
        cursor_.rewind(begin);
        return 0;
    }

    TextCursor& cursor_;
    std::size_t begin_ = 0;
    bool decimal_ = false;
};

bool accept_plus_minus(TextCursor& cursor) {
    if (cursor.accept(U'±'))
        return true;
    const std::size_t begin = cursor.position();
    if (cursor.accept('+')) {
        cursor.accept('/');
        if (cursor.accept('-'))
            return true;
    }
    cursor.rewind(begin);
    return false;
}

void check_characters(std::string_view text, const Place& place) {
    if (character_count(text) > limits::length_characters)
        throw error(message::length_too_long, text, place, limits::length_characters);
}

void expect_end(TextCursor& cursor) {
    cursor.skip_spaces();
    if (!cursor.at_end())
        throw cursor.failure(message::text_after_length, cursor.position());
}

} // namespace

std::string Length::text() const {
    const std::string exact = exact_decimal(mm_);
    if (!exact.empty())
        return exact + " mm";
    return fmt::format("{}/{} mm", mm_.numerator().str(), mm_.denominator().str());
}

Length parse_length(std::string_view text, const Place& place) {
    check_characters(text, place);
    TextCursor cursor(text, place);
    LengthReader reader(cursor);
    const Rational number = reader.number();
    const Unit* unit = reader.unit();
    if (!unit)
        throw reader.without_unit();
    expect_end(cursor);
    return Length::millimetres(number * unit->millimetres);
}

MeasuredLength parse_measured_length(std::string_view text, const Place& place) {
    check_characters(text, place);
    TextCursor cursor(text, place);
    LengthReader reader(cursor);
    const Rational number = reader.number();
    const Unit* unit = reader.unit();
    if (!accept_plus_minus(cursor))
        return {parse_length(text, place), std::nullopt, Basis::ruler};
    LengthReader width_reader(cursor);
    cursor.skip_spaces();
    const std::size_t begin = cursor.position();
    const Rational width = width_reader.number();
    const Unit* width_unit = width_reader.unit();
    if (!width_unit)
        throw width_reader.without_unit();
    expect_end(cursor);
    if (width.numerator() <= 0)
        throw cursor.failure(message::half_width_not_positive, begin);
    return {Length::millimetres(number * (unit ? unit : width_unit)->millimetres),
            Length::millimetres(width * width_unit->millimetres), Basis::ruler};
}

} // namespace sectio
