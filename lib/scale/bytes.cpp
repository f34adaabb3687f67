#include <sectio/base/limits.hpp>
#include <sectio/scale/bytes.hpp>

#include <limits>

namespace sectio {

namespace {

constexpr std::uint64_t is_long = 0, is_short = 1, is_negative = 2;

/// Numbers below this stand in one with their sign.
constexpr std::int64_t short_bound = std::numeric_limits<std::int64_t>::max() >> 3;

/// Digits that no number has which an interval may hold.
constexpr std::size_t most_digits = limits::term_bits;

} // namespace

void ByteWriter::number(std::uint64_t n) {
    for (; n >= 0x80; n >>= 7)
        bytes_ += static_cast<char>(0x80 | (n & 0x7F));
    bytes_ += static_cast<char>(n);
}

void ByteWriter::text(std::string_view text) {
    number(text.size());
    bytes_ += text;
}

void ByteWriter::integer(const Integer& n) {
    const Integer size = n < 0 ? Integer(-n) : n;
    if (size > short_bound) {
        number(is_long);
        return text(n.str());
    }
    number(size.convert_to<std::uint64_t>() << 2 | (n < 0 ? is_negative : 0) | is_short);
}

void ByteWriter::interval(const Interval& interval) {
    number(interval.factors().size());
    for (const Factor& factor : interval.factors()) {
        integer(factor.base);
        integer(factor.exponent.numerator());
        integer(factor.exponent.denominator());
        number(factor.prime);
    }
}

std::string_view ByteReader::take(std::uint64_t count) {
    if (count > left_.size())
        throw Damaged{};
    const std::string_view taken = left_.substr(0, count);
    left_.remove_prefix(count);
    return taken;
}

std::uint64_t ByteReader::number() {
    std::uint64_t n = 0;
    for (unsigned shift = 0; shift < 64; shift += 7) {
        const auto byte = static_cast<unsigned char>(take(1)[0]);
        if (shift == 63 && byte > 1)
            break; // more than 64 bits
        n |= std::uint64_t{byte & 0x7FU} << shift;
        if (byte < 0x80)
            return n;
    }
    throw Damaged{};
}

std::size_t ByteReader::below(std::size_t bound) {
    const std::uint64_t n = number();
    if (n >= bound)
        throw Damaged{};
    return n;
}

std::string_view ByteReader::text() {
    return take(number());
}

Integer ByteReader::integer() {
    const std::uint64_t n = number();
    if (n == is_long) {
        const std::string digits = string();
        const std::size_t first = digits.starts_with('-') ? 1 : 0;
        if (digits.size() == first || digits.size() > most_digits
            || digits.find_first_not_of("0123456789", first) != digits.npos)
            throw Damaged{};
        return Integer(digits);
    }
    const auto size = static_cast<std::int64_t>(n >> 2);
    return n & is_negative ? -size : size;
}

Interval ByteReader::interval() {
    Factors factors;
    const std::size_t count = below(left_.size() + 1);
    for (std::size_t i = 0; i < count; ++i) {
        Integer base = integer();
        Integer numerator = integer();
        // Written in lowest terms: the quotient need not be reduced again.
        const Integer denominator = integer();
        Rational exponent(std::move(numerator));
        if (base < 2 || (!factors.empty() && base <= factors.back().base) || denominator < 1
            || exponent.numerator() == 0)
            throw Damaged{}; // no canonical form
        if (denominator != 1)
            exponent /= denominator;
        factors.push_back({std::move(base), std::move(exponent), below(2) != 0});
    }
    return Interval::from_factors(std::move(factors));
}

} // namespace sectio
