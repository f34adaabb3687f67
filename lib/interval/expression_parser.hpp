#pragma once
/// @file
/// Private to lib/interval: recursive descent over the grammar of expression.hpp, one member a
/// rule.

#include <sectio/base/limits.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/interval/expression.hpp>

#include <string>
#include <vector>

namespace sectio {

class ExpressionParser {
  public:
    /// What a whole number on its own means: the ratio 3/1 of `3`, or nothing where a size is
    /// asked, since it lacks its unit there.
    enum class BareNumber { ratio, refused };

    ExpressionParser(std::string_view text, const Place& place, const NameLookup& names,
                     BareNumber bare = BareNumber::ratio);

    Interval whole_text();

  private:
    /// What may stand beside a stroke: a steps, cents or named interval may not, since 31of53/2 or
    /// 50c/2 would be read in two ways. `whole` is a number that stands alone.
    enum class Kind { whole, plain, other };

    struct Part {
        Interval interval;
        Kind kind;
    };

    // expression.cpp: how parts are joined.
    Part stack();
    Part term();
    bool times_sign();
    Part quotient();
    Part power();
    bool power_follows();
    Interval product_of_powers(const Interval& first, bool raised);
    Rational exponent();
    Part parenthesis(std::size_t start);
    void refuse_multiplication();
    void expect_nothing_more();

    // expression_parts.cpp: the parts themselves.
    Part primary();
    Part number(std::size_t start);
    std::string number_text(std::size_t start, bool& pointed);
    Rational decimal_number(Message if_absent);
    Interval ratio_term(const std::string& text, std::size_t start);
    Interval steps(const std::string& text, bool pointed, std::size_t start);
    std::optional<Interval> name_after_number(std::size_t start);
    Interval quoted_name(std::size_t start);
    Interval bare_name(std::size_t start);
    std::string_view bare_name_text(std::size_t start);
    bool ends_bare_name() const;
    std::optional<Interval> lookup(std::string_view name) const;
    Interval named(std::string_view name, std::size_t start);
    std::size_t skip_to_part();
    void check_length(std::size_t characters, std::size_t start) const;
    Integer whole(const std::string& digits, std::size_t start, std::size_t most_bits) const;

    TextCursor in_;
    const NameLookup& names_;
    BareNumber bare_;
    int nesting_ = 0;
};

} // namespace sectio
