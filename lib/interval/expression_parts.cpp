// The parts of an expression: numbers, steps, cents and names.

#include <sectio/base/messages.hpp>
#include <sectio/interval/expression_parser.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/interval/note_text.hpp>
#include <sectio/interval/pitch.hpp>

namespace sectio {

namespace {

/// Decimal digits that a term of limits::term_bits can have; longer runs are refused unread.
constexpr std::size_t most_digits = limits::term_bits * 30103 / 100000 + 1;

/// A note letter, signs, then the octave: `F#4-14c`.
bool looks_like_pitch(std::string_view name) {
    const std::size_t octave = name.find_first_of("0123456789");
    return name.front() >= 'A' && name.front() <= 'G' && octave != std::string_view::npos
           && name.substr(1, octave - 1).find_first_not_of("#bx♯♭") == std::string_view::npos;
}

/// `name` with every run of blanks as one.
std::string single_blanks(std::string_view name) {
    std::string text;
    for (const char c : trimmed(name)) {
        const bool blank = c == ' ' || c == '\t' || c == '\n' || c == '\r';
        if (!blank || text.back() != ' ')
            text += blank ? ' ' : c;
    }
    return text;
}

} // namespace

ExpressionParser::Part ExpressionParser::primary() {
    const std::size_t start = skip_to_part();
    const char32_t c = in_.peek();
    if (is_digit(c))
        return number(start);
    if (c == U'(')
        return parenthesis(start);
    if (c == U'"')
        return {quoted_name(start), Kind::other};
    if (is_letter(c))
        return {bare_name(start), Kind::other};
    constexpr std::u32string_view known = U")+-/:^*.,";
    const bool misplaced = in_.at_end() || known.find(c) != std::u32string_view::npos;
    throw in_.failure(misplaced ? message::expected_interval : message::unknown_character, start);
}

/// Digits, with a point and more of them where they stand there.
std::string ExpressionParser::number_text(std::size_t start, bool& pointed) {
    std::string text = in_.digits();
    pointed = in_.peek() == U'.' && is_digit(in_.peek(1));
    if (pointed) {
        in_.skip();
        text.append(".").append(in_.digits());
    }
    check_length(text.size(), start);
    return text;
}

/// Steps, cents, a whole number, or a name that begins with one.
ExpressionParser::Part ExpressionParser::number(std::size_t start) {
    bool pointed = false;
    const std::string text = number_text(start, pointed);
    const std::size_t end = in_.position();
    if (in_.accept_word("cents") || in_.accept_word("cent") || in_.accept_word("c"))
        return {Interval::from_cents(parse_decimal(text)), Kind::other};
    if (in_.accept_word("of"))
        return {steps(text, pointed, start), Kind::other};
    if (is_letter(in_.peek()))
        if (const auto found = name_after_number(start))
            return {*found, Kind::other};
    in_.skip_spaces();
    if (in_.word_here("Hz") || in_.word_here("hz"))
        throw in_.failure(message::pitch_not_interval, start);
    if (pointed)
        throw in_.failure(message::decimal_without_cents, start, text);
    refuse_decimal_comma(in_, start, text, "c");
    in_.rewind(end);
    return {ratio_term(text, start), Kind::whole};
}

Rational ExpressionParser::decimal_number(Message if_absent) {
    const std::size_t start = skip_to_part();
    if (!is_digit(in_.peek()))
        throw in_.failure(if_absent, start);
    bool pointed = false;
    return parse_decimal(number_text(start, pointed));
}

Interval ExpressionParser::ratio_term(const std::string& text, std::size_t start) {
    const Integer term = whole(text, start, limits::term_bits);
    if (term == 0)
        throw in_.failure(message::zero_term, start);
    return Interval::from_ratio(term);
}

Interval ExpressionParser::steps(const std::string& text, bool pointed, std::size_t start) {
    if (pointed)
        throw in_.failure(message::steps_not_whole, start);
    const std::size_t division_start = skip_to_part();
    const std::string digits = in_.digits();
    if (digits.empty())
        throw in_.failure(message::expected_steps, division_start);
    if (in_.peek() == U'.' && is_digit(in_.peek(1)))
        throw in_.failure(message::steps_not_whole, division_start);
    const Integer step = whole(text, start, limits::exponent_bits);
    const Integer division = whole(digits, division_start, limits::exponent_bits);
    if (division == 0)
        throw in_.failure(message::zero_division, division_start);
    if (in_.peek() != U'(')
        return Interval::from_steps(step, division);
    const std::size_t period_start = in_.position();
    const Interval period = parenthesis(period_start).interval;
    if (!(period > Interval()))
        throw in_.failure(message::period_not_rising, period_start);
    return Interval::from_steps(step, division, period);
}

/// `11th harmonic`: letters right after the digits, where the catalogue knows that name.
std::optional<Interval> ExpressionParser::name_after_number(std::size_t start) {
    const std::size_t end = in_.position();
    auto found = lookup(bare_name_text(start));
    if (!found)
        in_.rewind(end);
    return found;
}

Interval ExpressionParser::quoted_name(std::size_t start) {
    in_.skip();
    const std::size_t begin = in_.position();
    while (!in_.at_end() && in_.peek() != U'"')
        in_.skip();
    if (in_.at_end())
        throw in_.failure(message::missing_quote, start);
    const std::string_view name = in_.written(begin);
    in_.skip();
    // “31 of 53” in quotes is the steps, as a shell user may write it.
    if (!name.empty() && is_digit(static_cast<unsigned char>(name.front())))
        if (auto found = lookup(name); !found)
            return ExpressionParser(name, in_.place(begin), names_, bare_).whole_text();
    return named(name, start);
}

/// A name without quotes: words up to a sign that stands apart.
Interval ExpressionParser::bare_name(std::size_t start) {
    const std::string_view name = bare_name_text(start);
    if (looks_like_pitch(name))
        throw in_.failure(message::pitch_not_interval, start);
    return named(name, start);
}

std::string_view ExpressionParser::bare_name_text(std::size_t start) {
    while (!in_.at_end() && !ends_bare_name())
        in_.skip();
    return trimmed(in_.written(start));
}

bool ExpressionParser::ends_bare_name() const {
    const char32_t c = in_.peek();
    const bool sign = c == U'+' || c == U'-';
    if (sign && in_.peek(1) == U' ')
        return true;
    return c == U'+' || c == U')' || c == U'(' || c == U'^' || c == U'"' || c == U'/' || c == U'*'
           || c == U':';
}

std::optional<Interval> ExpressionParser::lookup(std::string_view name) const {
    return names_ ? names_(single_blanks(name)) : std::nullopt;
}

namespace {

/// H4, Fis4, Re and F#: the refusal says which letter to write, and that an octave belongs to it.
void refuse_note(std::string_view name, const Place& place) {
    try {
        parse_pitch(name, Pitch::concert_a(), place);
    } catch (const Error& e) {
        if (e.id() == message::note_of_another_language
            || (e.id() == message::missing_octave && is_note_name(name)))
            throw;
    }
}

} // namespace

Interval ExpressionParser::named(std::string_view name, std::size_t start) {
    if (auto found = lookup(name))
        return *found;
    refuse_note(name, in_.place(start));
    throw error(message::unknown_interval_name, name, in_.place(start), name);
}

std::size_t ExpressionParser::skip_to_part() {
    in_.skip_spaces();
    return in_.position();
}

void ExpressionParser::check_length(std::size_t characters, std::size_t start) const {
    if (characters > most_digits)
        throw error(message::term_too_large, in_.piece(start), in_.place(start), limits::term_bits);
}

Integer ExpressionParser::whole(const std::string& digits, std::size_t start,
                                std::size_t most_bits) const {
    check_length(digits.size(), start);
    const Integer value = parse_decimal(digits).numerator();
    if (bit_length(value) > most_bits)
        throw in_.failure(most_bits == limits::term_bits ? message::term_too_large
                                                         : message::exponent_too_large,
                          start, most_bits);
    return value;
}

} // namespace sectio
