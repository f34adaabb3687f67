// Input beyond the limits is refused, and long input within them is read. Each case here would run
// for hours, exhaust the memory or the stack if it were tried the plain way; a timeout of the test
// program is the only clock.

#include <sectio/base/limits.hpp>
#include <sectio/division/division.hpp>

#include <support/errors.hpp>
#include <support/intervals.hpp>

#include <random>

using sectio::Integer;
using sectio::Interval;
using support::error_of;
using support::interval;
using support::name_of;

namespace {

namespace limits = sectio::limits;

std::string repeated(std::string_view piece, std::size_t times) {
    std::string text;
    text.reserve(piece.size() * times);
    for (std::size_t i = 0; i < times; ++i)
        text += piece;
    return text;
}

std::string refusal(const std::string& text) {
    return name_of(error_of([&] { interval(text); }));
}

} // namespace

TEST_CASE("Terms end at 4096 bits") {
    const Integer largest = (Integer(1) << limits::term_bits) - 1;
    const Integer larger = largest + 1;
    CHECK(interval(largest.str()) == Interval::from_ratio(largest));
    CHECK(refusal(larger.str()) == "term_too_large");
    CHECK(refusal("3/" + larger.str()) == "term_too_large");
    CHECK(name_of(error_of([&] { Interval::from_ratio(larger); })) == "term_too_large");
    CHECK(name_of(error_of([&] { Interval::from_ratio(1, larger); })) == "term_too_large");
    CHECK(refusal(std::string(99'999, '9')) == "term_too_large");
    CHECK(refusal(std::string(99'000, '9') + "c") == "term_too_large");
    CHECK(refusal("1of" + std::string(99'000, '9')) == "term_too_large");
    CHECK(refusal("2^" + std::string(99'000, '9')) == "term_too_large");
    CHECK(refusal("2^(1/" + std::string(99'000, '9') + ")") == "term_too_large");
    CHECK(refusal(std::string(99'000, '9') + " x 3/2") == "term_too_large");
    CHECK(refusal("0." + std::string(99'000, '9') + "c") == "term_too_large");
    CHECK(refusal(std::string(99'000, '0') + "3/2") == "term_too_large");
}

TEST_CASE("Exponents and counts end at 256 bits") {
    const Integer largest = (Integer(1) << limits::exponent_bits) - 1;
    const std::string within = largest.str(), beyond = Integer(largest + 1).str();
    CHECK(refusal("3^" + within) == "no error");
    CHECK(refusal("3^" + beyond) == "exponent_too_large");
    CHECK(refusal("3^(1/" + beyond + ")") == "exponent_too_large");
    CHECK(refusal("1of" + within) == "no error");
    CHECK(refusal("1of" + beyond) == "exponent_too_large");
    CHECK(refusal(beyond + "of12") == "exponent_too_large");
    CHECK(refusal(within + " x 3/2") == "no error");
    CHECK(refusal(beyond + " x 3/2") == "exponent_too_large");
    CHECK(refusal(repeated("9x", 49'000) + "2") == "exponent_too_large");
    CHECK(refusal("2" + repeated("^9", 49'000)) == "exponent_too_large");
    CHECK(refusal("2" + repeated("^(1/9)", 16'000)) == "exponent_too_large");
    CHECK(interval("3^" + within).cents(0).size() == 81); // 2^256 * 1902 cents
}

TEST_CASE("Expressions end at 100,000 characters, and those within are read") {
    CHECK(refusal(std::string(limits::expression_characters + 1, '2')) == "expression_too_long");
    CHECK(refusal(std::string(limits::expression_characters, ' ')) == "empty_expression");
    const auto stack = interval("1" + repeated("+3/2", 24'999));
    CHECK(stack == 24'999 * interval("3/2"));
    CHECK(interval("2" + repeated("-1of53", 16'000))
          == interval("2/1") - 16'000 * interval("1of53"));
    CHECK(interval(repeated("1x", 49'999) + "3") == interval("3/1"));
    CHECK(interval("2" + repeated("^1", 49'999)) == interval("2/1"));
    CHECK(refusal(repeated("3/2 ", 25'000)) == "unexpected_text");
    CHECK(refusal("\"" + std::string(99'990, 'a') + "\"") == "unknown_interval_name");
    CHECK(refusal(repeated("\"", 99'999)) == "unknown_interval_name"); // the empty name
    CHECK(refusal(repeated("é", 50'000)) == "unknown_interval_name");
}

TEST_CASE("Parentheses nest a hundred deep") {
    const auto nested = [](std::size_t depth) {
        return std::string(depth, '(') + "3/2" + std::string(depth, ')');
    };
    CHECK(interval(nested(100)) == interval("3/2"));
    CHECK(refusal(nested(101)) == "nested_too_deep");
    CHECK(refusal(std::string(99'999, '(')) == "nested_too_deep");
    CHECK(refusal(repeated("1of2(", 19'999)) == "nested_too_deep");
    // Side by side is no nesting.
    CHECK(interval("1" + repeated("+(2)", 24'000)) == interval("24000 x 2"));
}

TEST_CASE("Different factors end at a thousand") {
    std::string stack = "1";
    for (Integer n = 1'000'003; stack.size() < 99'000; n += 2)
        if (mpz_probab_prime_p(n.backend().data(), 25))
            stack += "+" + n.str();
    CHECK(refusal(stack) == "too_many_terms");
}

TEST_CASE("Long terms that share no factor are added, compared and printed") {
    std::mt19937_64 random(1);
    const auto long_number = [&random](int words) {
        Integer n = 1;
        for (int i = 0; i < words; ++i)
            n = (n << 64) + random();
        return n;
    };
    Interval sum;
    for (int i = 0; i < 30; ++i)
        sum += Interval::from_ratio(long_number(63), long_number(63));
    CHECK(interval(sectio::to_expression(sum)) == sum);
    CHECK(sum - sum == Interval());
    CHECK(sum > sum - interval("0.000000001c"));
    CHECK(sum.cents(3) == (sum + sum - sum).cents(3));
    CHECK_FALSE(sum.prime_factors().empty());
}

TEST_CASE("Sizes of ten thousand digits, and precision beyond it") {
    const std::string digits = interval("3/2").cents(limits::decimal_digits);
    CHECK(digits.size() == 4 + limits::decimal_digits);
    // Two intervals that differ in the 20,000th digit are still told apart.
    const Integer big = Integer(1) << 4000;
    const Interval near_unison = Interval::from_ratio(big + 1, big);
    CHECK(near_unison > Interval());
    CHECK(near_unison * sectio::Rational(1, 1'000'003) > Interval());
    CHECK(near_unison.cents(1205) != Interval().cents(1205)); // 2^-4000 = 10^-1204
    const Interval one = Interval::from_ratio(big + 1, big) * sectio::Rational(1, 2);
    const Interval other = Interval::from_ratio(big + 3, big + 2) * sectio::Rational(1, 2);
    CHECK(one > other);
}

TEST_CASE("Divisions of absurd size are refused or exact") {
    CHECK(name_of(error_of([] { sectio::parse_division(std::string(99'999, '9')); }))
          == "expected_division");
    const sectio::EqualDivision fine(Integer(1) << 250);
    CHECK(fine.nearest(interval("1of2")) == Integer(1) << 249);
    const auto step = fine.nearest(interval("3/2"));
    CHECK(sectio::bit_length(step) == 250);
}

TEST_CASE("Random bytes are read or refused with a text") {
    std::mt19937_64 random(20);
    // Pieces of the grammar, so that a good part of them gets past the first character.
    const std::string_view pieces[]{"3", "2",   "/",  ":",  "^",    "(",  ")",  "+",
                                    "-", " x ", "of", "c",  ".",    "53", "D4", "Hz",
                                    "#", "♭",   "¢",  "\"", "\xC3", "²",  ",",  " "};
    int read = 0;
    for (int round = 0; round < 20'000; ++round) {
        std::string text;
        for (std::uint64_t i = random() % 12; i > 0; --i)
            text += pieces[random() % std::size(pieces)];
        const auto error = error_of([&] {
            const Interval value = interval(text);
            ++read;
            if (interval(sectio::to_expression(value)) != value)
                FAIL("printed otherwise: " << text);
        });
        if (error && (error->message().empty() || error->advice().empty()))
            FAIL("no text for " << text);
    }
    CHECK(read > 200);
}
