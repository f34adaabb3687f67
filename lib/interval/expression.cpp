#include <sectio/base/limits.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/interval/messages.hpp>

#include <vector>

namespace sectio {

namespace {

/// Decimal digits that a term of limits::term_bits can have; longer runs are refused unread.
constexpr std::size_t most_digits = limits::term_bits * 30103 / 100000 + 1;

/// Recursive descent over the grammar of expression.hpp, one member a rule.
class IntervalParser {
  public:
    IntervalParser(std::string_view text, const Place& place, const NameLookup& names)
        : in_(text, place), names_(names) {
        if (text.size() > limits::expression_characters)
            throw error(message::expression_too_long, "", place, limits::expression_characters);
    }

    Interval whole_text() {
        in_.skip_spaces();
        if (in_.at_end())
            throw in_.failure(message::empty_expression, in_.position());
        Interval result = stack();
        expect_nothing_more();
        return result;
    }

  private:
    /// What may stand beside a stroke: a steps, cents or named interval may not, since 31of53/2 or
    /// 50c/2 would be read in two ways.
    enum class Kind { plain, whole, other };

    struct Part {
        Interval interval;
        Kind kind;
    };

    Interval stack() {
        const bool descending = in_.accept(U'-');
        std::vector<Interval> parts{descending ? -term() : term()};
        for (;;) {
            if (in_.accept(U'+'))
                parts.push_back(term());
            else if (in_.accept(U'-'))
                parts.push_back(-term());
            else
                return sum(std::move(parts));
        }
    }

    /// A loop, so that `2 x 2 x …` of any length needs no deep call stack.
    Interval term() {
        Integer times = 1;
        for (;;) {
            const std::size_t start = skip_to_part();
            const std::string digits = in_.digits();
            if (digits.empty() || !times_sign()) {
                in_.rewind(start);
                return times == 1 ? quotient() : times * quotient();
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
    bool times_sign() {
        in_.skip_spaces();
        if (in_.peek() != U'x' || is_letter(in_.peek(1)))
            return false;
        in_.skip();
        return true;
    }

    Interval quotient() {
        const Part above = power();
        if (above.kind == Kind::other || !(in_.accept(U'/') || in_.accept(U':')))
            return above.interval;
        const std::size_t start = in_.position();
        in_.skip_spaces();
        if (in_.at_end() || !(is_digit(in_.peek()) || in_.peek() == U'('))
            throw in_.failure(message::expected_denominator, in_.at_end() ? start : in_.position());
        const Part below = power();
        if (below.kind == Kind::other)
            throw in_.failure(message::expected_denominator, start);
        return above.interval - below.interval;
    }

    Part power() {
        Part base = primary();
        while (in_.accept(U'^')) {
            base.interval = base.interval * exponent();
            if (base.kind == Kind::whole)
                base.kind = Kind::plain;
        }
        return base;
    }

    Rational exponent() {
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

    Rational decimal_number(Message if_absent) {
        in_.skip_spaces();
        const std::size_t start = in_.position();
        std::string text = in_.digits();
        if (text.empty())
            throw in_.failure(if_absent, start);
        if (in_.peek() == U'.' && is_digit(in_.peek(1))) {
            in_.skip();
            text.append(".").append(in_.digits());
        }
        check_length(text.size(), start);
        return parse_decimal(text);
    }

    Part primary() {
        const std::size_t start = skip_to_part();
        const char32_t c = in_.peek();
        if (is_digit(c))
            return number(start);
        if (c == U'(')
            return {parenthesis(start), Kind::plain};
        if (c == U'"')
            return {quoted_name(start), Kind::other};
        if (is_letter(c))
            return {bare_name(start), Kind::other};
        constexpr std::u32string_view known = U")+-/:^*.,";
        const bool misplaced = in_.at_end() || known.find(c) != std::u32string_view::npos;
        throw in_.failure(misplaced ? message::expected_interval : message::unknown_character,
                          start);
    }

    /// Steps, cents or a whole number.
    Part number(std::size_t start) {
        std::string text = in_.digits();
        const bool pointed = in_.peek() == U'.' && is_digit(in_.peek(1));
        if (pointed) {
            in_.skip();
            text.append(".").append(in_.digits());
        }
        check_length(text.size(), start);
        const std::size_t end = in_.position();
        if (in_.accept_word("cents") || in_.accept_word("cent") || in_.accept_word("c"))
            return {Interval::from_cents(parse_decimal(text)), Kind::other};
        if (in_.accept_word("of"))
            return {steps(text, pointed, start), Kind::other};
        in_.skip_spaces();
        if (in_.word_here("Hz") || in_.word_here("hz"))
            throw in_.failure(message::pitch_not_interval, start);
        if (pointed)
            throw in_.failure(message::decimal_without_cents, start, text);
        if (in_.peek() == U',' && is_digit(in_.peek(1)))
            throw decimal_comma(text, start);
        in_.rewind(end);
        return {ratio_term(text, start), Kind::whole};
    }

    Error decimal_comma(const std::string& whole_part, std::size_t start) {
        in_.skip();
        return in_.failure(message::decimal_comma, start, whole_part, in_.digits());
    }

    Interval ratio_term(const std::string& text, std::size_t start) {
        const Integer term = whole(text, start, limits::term_bits);
        if (term == 0)
            throw in_.failure(message::zero_term, start);
        return Interval::ratio(term);
    }

    Interval steps(const std::string& text, bool pointed, std::size_t start) {
        if (pointed)
            throw in_.failure(message::steps_not_whole, start);
        in_.skip_spaces();
        const std::size_t division_start = in_.position();
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
            return Interval::steps(step, division);
        const std::size_t period_start = in_.position();
        const Interval period = parenthesis(period_start);
        if (!(period > Interval()))
            throw in_.failure(message::period_not_rising, period_start);
        return Interval::steps(step, division, period);
    }

    Interval parenthesis(std::size_t start) {
        if (++nesting_ > limits::expression_nesting)
            throw in_.failure(message::nested_too_deep, start, limits::expression_nesting);
        in_.skip();
        Interval inside = stack();
        refuse_multiplication();
        if (!in_.accept(U')')) {
            in_.skip_spaces();
            throw in_.at_end() ? in_.failure(message::missing_parenthesis, start)
                               : in_.failure(message::unexpected_text, in_.position());
        }
        --nesting_;
        return inside;
    }

    Interval quoted_name(std::size_t start) {
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
                return IntervalParser(name, in_.place(begin), names_).whole_text();
        return named(name, start);
    }

    /// A name without quotes: words up to a sign that stands apart.
    Interval bare_name(std::size_t start) {
        while (!in_.at_end() && !ends_bare_name())
            in_.skip();
        std::string_view name = in_.written(start);
        while (!name.empty() && name.back() == ' ')
            name.remove_suffix(1);
        if (looks_like_pitch(name))
            throw in_.failure(message::pitch_not_interval, start);
        return named(name, start);
    }

    bool ends_bare_name() const {
        const char32_t c = in_.peek();
        const bool sign = c == U'+' || c == U'-';
        if (sign && in_.peek(1) == U' ')
            return true;
        return c == U'+' || c == U')' || c == U'(' || c == U'^' || c == U'"' || c == U'/'
               || c == U'*' || c == U':';
    }

    /// A note letter, signs, then the octave: `F#4-14c`.
    static bool looks_like_pitch(std::string_view name) {
        const std::size_t octave = name.find_first_of("0123456789");
        return name.front() >= 'A' && name.front() <= 'G' && octave != std::string_view::npos
               && name.substr(1, octave - 1).find_first_not_of("#bx♯♭") == std::string_view::npos;
    }

    std::optional<Interval> lookup(std::string_view name) const {
        return names_ ? names_(name) : std::nullopt;
    }

    Interval named(std::string_view name, std::size_t start) {
        if (auto found = lookup(name))
            return *found;
        throw error(message::unknown_interval_name, name, in_.place(start), name);
    }

    std::size_t skip_to_part() {
        in_.skip_spaces();
        return in_.position();
    }

    void check_length(std::size_t characters, std::size_t start) const {
        if (characters > most_digits)
            throw error(message::term_too_large, in_.piece(start), in_.place(start),
                        limits::term_bits);
    }

    Integer whole(const std::string& digits, std::size_t start, std::size_t most_bits) const {
        check_length(digits.size(), start);
        const Integer value = parse_decimal(digits).numerator();
        if (bit_length(value) > most_bits)
            throw in_.failure(most_bits == limits::term_bits ? message::term_too_large
                                                             : message::exponent_too_large,
                              start, most_bits);
        return value;
    }

    void refuse_multiplication() {
        in_.skip_spaces();
        if (in_.peek() == U'*')
            throw in_.failure(message::multiplication_sign, in_.position());
    }

    void expect_nothing_more() {
        refuse_multiplication();
        in_.expect_end();
    }

    TextCursor in_;
    const NameLookup& names_;
    int nesting_ = 0;
};

} // namespace

Interval parse_interval(std::string_view text, const Place& place, const NameLookup& names) {
    try {
        return IntervalParser(text, place, names).whole_text();
    } catch (const Error& e) {
        // Limits of the engine (too many factors, huge exponents) know no place of their own.
        if (e.place().column != 0)
            throw;
        throw Error(e.id(), e.message(), e.advice(), std::string(text), place);
    }
}

} // namespace sectio
