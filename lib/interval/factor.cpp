#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/interval/factor.hpp>
#include <sectio/interval/messages.hpp>

#include <algorithm>
#include <array>

namespace sectio {

namespace {

constexpr std::array<unsigned long, 15> small_primes{2,  3,  5,  7,  11, 13, 17, 19,
                                                     23, 29, 31, 37, 41, 43, 47};
/// Product of small_primes; it fits 64 bits, so that one division finds which of them divide.
constexpr unsigned long small_product = 614889782588491410UL;

bool is_small(const Integer& base) {
    return base <= largest_split_prime;
}

/// A number without prime factors up to 47 and below 53^2 is a prime.
bool is_surely_prime(const Integer& rest) {
    return rest < 53 * 53;
}

void sort_by_base(Factors& factors) {
    std::sort(factors.begin(), factors.end(),
              [](const Factor& a, const Factor& b) { return a.base < b.base; });
}

void check_size(const Factors& factors) {
    if (factors.size() > limits::different_factors)
        throw error(message::too_many_terms, "", {}, limits::different_factors);
    for (const Factor& f : factors)
        if (bit_length(f.exponent.numerator()) > limits::exponent_bits
            || bit_length(f.exponent.denominator()) > limits::exponent_bits)
            throw error(message::exponent_too_large, "", {}, limits::exponent_bits);
}

/// Replaces base^exponent by root^(k exponent) with the largest k for which base = root^k.
void take_root(Factor& factor) {
    const auto base = factor.base.backend().data();
    if (!mpz_perfect_power_p(base))
        return;
    for (unsigned long k = bit_length(factor.base); k >= 2; --k) {
        Integer root;
        if (mpz_root(root.backend().data(), base, k)) {
            factor.base = root;
            factor.exponent *= Integer(k);
            return;
        }
    }
}

/// Restores the canonical form after exponents or bases changed.
void canonise(Factors& factors) {
    std::erase_if(factors, [](const Factor& f) { return f.exponent.numerator() == 0; });
    for (Factor& f : factors)
        if (!f.prime && !is_whole(f.exponent))
            take_root(f);
    sort_by_base(factors);
}

void normalise(Factors& factors) {
    canonise(factors);
    check_size(factors);
}

AlignedFactor only_first(const Factor& f) {
    return {f.base, f.prime, f.exponent, Rational(0)};
}
AlignedFactor only_second(const Factor& f) {
    return {f.base, f.prime, Rational(0), f.exponent};
}

/// Merges two runs sorted by base whose different bases are coprime.
template <typename Iterator>
void merge(Iterator a, Iterator a_end, Iterator b, Iterator b_end,
           std::vector<AlignedFactor>& out) {
    while (a != a_end || b != b_end) {
        if (b == b_end || (a != a_end && a->base < b->base))
            out.push_back(only_first(*a++));
        else if (a == a_end || b->base < a->base)
            out.push_back(only_second(*b++));
        else {
            out.push_back({a->base, a->prime || b->prime, a->exponent, b->exponent});
            ++a, ++b;
        }
    }
}

/// Puts `next` into the coprime list by splitting common divisors g off:
/// c^f b^e = (c/g)^f (b/g)^e g^(e+f). It ends because the product of all bases shrinks by g each
/// time.
void insert_refined(std::vector<AlignedFactor>& list, AlignedFactor next) {
    if (next.base == 1)
        return;
    const auto meets = [&next](const AlignedFactor& f) {
        return boost::multiprecision::gcd(f.base, next.base) != 1;
    };
    const auto met = std::find_if(list.begin(), list.end(), meets);
    if (met == list.end()) {
        list.push_back(std::move(next));
        return;
    }
    const AlignedFactor old = std::move(*met);
    list.erase(met);
    const Integer common = boost::multiprecision::gcd(old.base, next.base);
    const auto part = [](const Integer& base, const Rational& first, const Rational& second) {
        return AlignedFactor{base, is_surely_prime(base), first, second};
    };
    insert_refined(list, part(old.base / common, old.first, old.second));
    insert_refined(list, part(next.base / common, next.first, next.second));
    AlignedFactor divisor = part(common, old.first + next.first, old.second + next.second);
    divisor.prime = divisor.prime || old.prime || next.prime;
    insert_refined(list, std::move(divisor));
}

} // namespace

Factors factors_of(Integer n, int sign) {
    Factors factors;
    factors.reserve(8); // few numbers have more
    const unsigned long rest = mpz_fdiv_ui(n.backend().data(), small_product);
    for (const unsigned long p : small_primes) {
        if (rest % p != 0)
            continue;
        Integer prime(p);
        const auto count =
            mpz_remove(n.backend().data(), n.backend().data(), prime.backend().data());
        factors.push_back({std::move(prime), Rational(sign * static_cast<long>(count)), true});
    }
    if (n > 1) {
        const bool prime = is_surely_prime(n);
        factors.push_back({std::move(n), Rational(sign), prime});
    }
    return factors;
}

std::vector<AlignedFactor> aligned(const Factors& a, const Factors& b) {
    const auto large = [](const Factors& f) {
        return std::find_if(f.begin(), f.end(), [](const Factor& x) { return !is_small(x.base); });
    };
    const auto a_large = large(a), b_large = large(b);
    std::vector<AlignedFactor> out;
    merge(a.begin(), a_large, b.begin(), b_large, out);
    // Small primes divide no large base, and the large ones of one side are coprime already.
    if (a_large == a.end() || b_large == b.end()) {
        merge(a_large, a.end(), b_large, b.end(), out);
        return out;
    }
    std::vector<AlignedFactor> refined;
    for (auto f = a_large; f != a.end(); ++f)
        refined.push_back(only_first(*f));
    for (auto f = b_large; f != b.end(); ++f)
        insert_refined(refined, only_second(*f));
    out.insert(out.end(), refined.begin(), refined.end());
    return out;
}

Factors product(const Factors& a, const Factors& b) {
    if (a.empty() || b.empty())
        return a.empty() ? b : a;
    Factors result;
    for (AlignedFactor& f : aligned(a, b))
        result.push_back({std::move(f.base), f.first + f.second, f.prime});
    normalise(result);
    return result;
}

Factors quotient(const Factors& a, const Factors& b) {
    Factors result;
    for (AlignedFactor& f : aligned(a, b))
        result.push_back({std::move(f.base), f.first - f.second, f.prime});
    canonise(result);
    return result;
}

Factors power(const Factors& a, const Rational& r) {
    Factors result = a;
    for (Factor& f : result)
        f.exponent *= r;
    normalise(result);
    return result;
}

} // namespace sectio
