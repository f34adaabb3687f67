#include <sectio/approx/certified_euclid.hpp>

#include <array>
#include <cstdint>
#include <optional>
#include <utility>

namespace sectio {

namespace {

/// A product of matrices (q 1; 1 0), one for each quotient: (α, β) = matrix · (α', β'). Its
/// determinant is 1 or -1, and the first column is not smaller than the second.
template <typename Number>
struct Cofactors {
    Number a = 1, b = 0, c = 0, d = 1;
    bool odd = false; ///< determinant -1

    bool is_identity() const { return !odd && b == 0 && c == 0; }
};
using Matrix = Cofactors<Integer>;
using SmallMatrix = Cofactors<std::uint64_t>;

template <typename Number>
void append(Cofactors<Number>& m, const Number& q) {
    m = {m.a * q + m.b, m.a, m.c * q + m.d, m.c, !m.odd};
}

Matrix operator*(const Matrix& m, const Matrix& n) {
    return {m.a * n.a + m.b * n.c, m.a * n.b + m.b * n.d, m.c * n.a + m.d * n.c,
            m.c * n.b + m.d * n.d, m.odd != n.odd};
}

/// α in [a, a + 2], β in [b, b + 2].
struct Range {
    Integer a, b;
};

Integer high_part(const Integer& n, std::size_t shift) {
    Integer result;
    mpz_fdiv_q_2exp(result.backend().data(), n.backend().data(), shift);
    return result;
}

/// The range of (α', β') in units of 2^s, for the smallest s that keeps both within a width of 2.
/// With determinant 1, α' = dα - bβ and β' = aβ - cα (letters of the matrix), so where α and β vary
/// by 2, α' varies by 2 (b + d) and β' by 2 (a + c), which is the larger; with determinant -1 signs
/// change. That is less than one unit of 2^s where 2^s > 2 (a + c), and cutting to whole units adds
/// one more.
Range remainders(const Range& r, const Matrix& m) {
    Integer a = m.d * r.a - m.b * r.b, b = m.a * r.b - m.c * r.a;
    if (m.odd) {
        a = -a - 2 * m.d;
        b = -b - 2 * m.a;
    } else {
        a -= 2 * m.b;
        b -= 2 * m.c;
    }
    const std::size_t shift = bit_length(m.a + m.c) + 1;
    return {high_part(a, shift), high_part(b, shift)};
}

/// Numbers of so many bits are handled in machine words.
constexpr std::size_t word_bits = 62;

struct WordPair {
    std::uint64_t above, below;
    void step(std::uint64_t q) { *this = {below, above - q * below}; }
};

/// Both ends of a range below 2^62 walked side by side as long as they agree.
SmallMatrix reduce_words(std::uint64_t a, std::uint64_t b, std::vector<Integer>& quotients) {
    WordPair low{a, b + 2}, high{a + 2, b};
    SmallMatrix m;
    while (low.below != 0 && high.below != 0) {
        const std::uint64_t q = low.above / low.below;
        if (q != high.above / high.below)
            break;
        append(m, q);
        quotients.emplace_back(q);
        low.step(q);
        high.step(q);
    }
    return m;
}

/// The first quotient, if all of the digits make it certain.
std::optional<Integer> first_quotient(const Range& r) {
    if (r.b <= 0)
        return std::nullopt;
    const Integer q = (r.a + 2) / r.b;
    return q == r.a / (r.b + 2) ? std::optional(q) : std::nullopt;
}

Matrix reduce(const Range& r, std::vector<Integer>& quotients);

/// Quotients certain from the leading half of the digits, or the first one from all digits.
Matrix reduce_half(const Range& r, std::size_t bits, std::vector<Integer>& quotients) {
    const std::size_t shift = bits / 2;
    Matrix m = reduce({high_part(r.a, shift), high_part(r.b, shift)}, quotients);
    if (!m.is_identity())
        return m;
    if (auto q = first_quotient(r)) {
        append(m, *q);
        quotients.push_back(std::move(*q));
    }
    return m;
}

Matrix reduce(const Range& r, std::vector<Integer>& quotients) {
    // A remainder may be as small as 0, and its lower bound below it.
    if (r.a < 0 || r.b < 0)
        return {};
    const std::size_t bits = std::max(bit_length(r.a), bit_length(r.b));
    if (bits <= word_bits) {
        const SmallMatrix m = reduce_words(r.a.convert_to<std::uint64_t>(),
                                           r.b.convert_to<std::uint64_t>(), quotients);
        return {m.a, m.b, m.c, m.d, m.odd};
    }
    Matrix first = reduce_half(r, bits, quotients);
    if (first.is_identity())
        return first;
    const Matrix rest = reduce(remainders(r, first), quotients);
    return rest.is_identity() ? first : first * rest;
}

} // namespace

std::vector<Integer> certain_quotients(const Integer& a, const Integer& b) {
    std::vector<Integer> quotients;
    reduce({a, b}, quotients);
    return quotients;
}

} // namespace sectio
