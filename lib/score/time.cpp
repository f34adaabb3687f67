#include <sectio/base/argument.hpp>
#include <sectio/base/error.hpp>
#include <sectio/score/messages.hpp>
#include <sectio/score/time.hpp>

#include <numeric>

namespace sectio::score {

namespace {

/// a·b + c·d in 64 bits, or the error.
std::int64_t sum_of_products(std::int64_t a, std::int64_t b, std::int64_t c, std::int64_t d) {
    std::int64_t left = 0;
    std::int64_t right = 0;
    std::int64_t sum = 0;
    if (__builtin_mul_overflow(a, b, &left) || __builtin_mul_overflow(c, d, &right)
        || __builtin_add_overflow(left, right, &sum) || sum == INT64_MIN)
        throw error(message::score_rhythm_too_fine, "", {});
    return sum;
}

bool is_space(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}
bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

} // namespace

QuarterNotes::QuarterNotes(std::int64_t num, std::int64_t den) : num_(num), den_(den) {
    if (den == 1) // nearly always
        return;
    check_argument(den > 0, "the denominator of a duration", "above 0");
    const std::int64_t common = std::gcd(num, den);
    num_ /= common;
    den_ /= common;
}

QuarterNotes operator+(QuarterNotes a, QuarterNotes b) {
    if (a.den_ == b.den_) // by far the commonest case
        return QuarterNotes(sum_of_products(a.num_, 1, b.num_, 1), a.den_);
    const std::int64_t scale = b.den_ / std::gcd(a.den_, b.den_);
    const std::int64_t den = sum_of_products(a.den_, scale, 0, 0);
    return QuarterNotes(sum_of_products(a.num_, scale, b.num_, den / b.den_), den);
}

QuarterNotes operator*(QuarterNotes a, QuarterNotes b) {
    return QuarterNotes(sum_of_products(a.num_, b.num_, 0, 0),
                        sum_of_products(a.den_, b.den_, 0, 0));
}

QuarterNotes operator/(QuarterNotes a, QuarterNotes b) {
    const std::int64_t num = sum_of_products(a.num_, b.den_, 0, 0);
    const std::int64_t den = sum_of_products(a.den_, b.num_, 0, 0);
    return den < 0 ? QuarterNotes(-num, -den) : QuarterNotes(num, den);
}

std::strong_ordering operator<=>(QuarterNotes a, QuarterNotes b) {
    return a.den_ == b.den_ ? a.num_ <=> b.num_ : (a - b).num_ <=> 0;
}

std::optional<QuarterNotes> decimal_number(std::string_view text) {
    while (!text.empty() && is_space(text.front()))
        text.remove_prefix(1);
    while (!text.empty() && is_space(text.back()))
        text.remove_suffix(1);
    const bool minus = text.starts_with('-');
    if (minus || text.starts_with('+'))
        text.remove_prefix(1);
    constexpr int digits_kept = 9;
    std::int64_t value = 0;
    std::int64_t den = 1;
    int whole = 0;
    int part = 0;
    bool point = false;
    for (const char c : text) {
        if (c == '.' && !point) {
            point = true;
            continue;
        }
        if (!is_digit(c))
            return std::nullopt;
        if (point && part == digits_kept) {
            if (c != '0')
                return std::nullopt;
            continue;
        }
        value = value * 10 + (c - '0');
        part += point ? 1 : 0;
        whole += !point && value != 0 ? 1 : 0;
        den *= point ? 10 : 1;
        if (whole > digits_kept)
            return std::nullopt;
    }
    if (text.empty() || text == ".")
        return std::nullopt;
    return QuarterNotes(minus ? -value : value, den);
}

} // namespace sectio::score
