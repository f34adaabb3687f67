#include <sectio/approx/bound_text.hpp>
#include <sectio/approx/messages.hpp>
#include <sectio/approx/smooth_ratios.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/interval/prime_list.hpp>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <functional>

namespace sectio {

std::string PrimeChoice::text() const {
    return only.empty() ? fmt::format("{}-limit", limit)
                        : fmt::format("primes {}", fmt::join(only, ", "));
}

std::vector<unsigned> PrimeChoice::primes() const {
    return only.empty() ? primes_up_to(limit) : only;
}

namespace {

unsigned prime(TextCursor& in) {
    in.skip_spaces();
    const std::size_t start = in.position();
    const std::string digits = in.digits();
    if (digits.empty())
        throw in.failure(message::expected_primes, start);
    const auto n = digits.size() > 4 ? 9999U : static_cast<unsigned>(std::stoul(digits));
    static const auto primes = primes_up_to(largest_prime_limit);
    const auto next = std::lower_bound(primes.begin(), primes.end(), n);
    if (next == primes.end() || n < primes.front())
        throw in.failure(message::prime_limit_out_of_range, start, largest_prime_limit);
    if (*next != n)
        throw in.failure(message::not_a_prime, start, n, *std::prev(next), *next);
    return n;
}

} // namespace

PrimeChoice parse_primes(std::string_view text, const Place& place) {
    TextCursor in(text, place);
    std::vector<unsigned> primes;
    do
        primes.push_back(prime(in));
    while (in.accept(U','));
    in.skip_spaces();
    if (!in.at_end())
        throw in.failure(message::expected_primes, in.position());
    std::sort(primes.begin(), primes.end());
    primes.erase(std::unique(primes.begin(), primes.end()), primes.end());
    const unsigned limit = primes.back();
    if (primes.size() == 1)
        primes.clear();
    return {limit, std::move(primes)};
}

namespace {

/// A number or a power of one.
Integer power(TextCursor& in) {
    in.skip_spaces();
    const std::size_t start = in.position();
    const auto whole = [&] {
        in.skip_spaces();
        const std::string digits = in.digits();
        if (digits.empty())
            throw in.failure(message::bound_not_positive, start);
        if (digits.size() > limits::term_bits)
            throw in.failure(message::bound_too_large, start, limits::term_bits);
        return parse_decimal(digits).numerator();
    };
    Integer base = whole();
    if (!in.accept(U'^'))
        return base;
    const Integer exponent = whole();
    if (base > 1 && Integer(bit_length(base) - 1) * exponent >= limits::term_bits)
        throw in.failure(message::bound_too_large, start, limits::term_bits);
    return base < 2 ? base : boost::multiprecision::pow(base, exponent.convert_to<unsigned>());
}

} // namespace

Integer parse_bound(std::string_view text, const Place& place) {
    TextCursor in(text, place);
    in.skip_spaces();
    const std::size_t start = in.position();
    Integer sum = power(in);
    for (;;)
        if (in.accept(U'+'))
            sum += power(in);
        else if (in.accept(U'-'))
            sum -= power(in);
        else
            break;
    in.skip_spaces();
    if (!in.at_end())
        throw in.failure(message::bound_not_positive, in.position());
    if (sum < 1)
        throw in.failure(message::bound_not_positive, start);
    return sum;
}

} // namespace sectio
