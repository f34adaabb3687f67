// Splitting bases into primes, as far as a bounded search goes.

#include <sectio/interval/factor.hpp>
#include <sectio/interval/prime_list.hpp>

#include <algorithm>
#include <optional>

namespace sectio {

namespace {

/// Trial division goes to here; what is left and smaller than its square is a prime.
constexpr unsigned long trial_bound = 1UL << 16;

/// What one walk may spend of the budget.
constexpr unsigned long walk_budget = 1UL << 24;

/// A step on numbers of n's length, as long multiplication costs it.
unsigned long step_cost(const Integer& n) {
    const unsigned long words = bit_length(n) / 64 + 1;
    return words * words;
}

bool is_prime(const Integer& n) {
    return mpz_probab_prime_p(n.backend().data(), 25) > 0;
}

/// What one walk of rho came to: a divisor (n itself where the walk closed too soon), or nothing
/// within the bound. Brent's variant: the product of many differences is taken before one gcd, and
/// repeated singly where that gcd is n.
std::optional<Integer> rho_divisor(const Integer& n, unsigned long constant,
                                   unsigned long& budget) {
    constexpr unsigned long batch = 64;
    const auto next = [&](const Integer& x) { return Integer((x * x + constant) % n); };
    const auto common = [&](const Integer& x) {
        return Integer(boost::multiprecision::gcd(boost::multiprecision::abs(x), n));
    };
    Integer fixed = 2, walker = 2, batch_start = 2, product = 1, divisor = 1;
    const unsigned long batch_cost = batch * step_cost(n);
    unsigned long left = std::min(budget, walk_budget);
    for (unsigned long length = 1; divisor == 1; length *= 2) {
        fixed = walker;
        for (unsigned long i = 0; i < length; ++i)
            walker = next(walker);
        for (unsigned long k = 0; k < length && divisor == 1; k += batch) {
            batch_start = walker;
            for (unsigned long i = 0; i < std::min(batch, length - k); ++i) {
                walker = next(walker);
                product = product * boost::multiprecision::abs(Integer(fixed - walker)) % n;
            }
            divisor = common(product);
            if (left < batch_cost)
                return std::nullopt;
            left -= batch_cost;
            budget -= batch_cost;
        }
    }
    if (divisor != n)
        return divisor;
    do
        batch_start = next(batch_start);
    while ((divisor = common(fixed - batch_start)) == 1);
    return divisor;
}

/// A proper divisor of the odd composite `n`, or nothing within the bound.
std::optional<Integer> proper_divisor(const Integer& n, unsigned long& budget) {
    for (const unsigned long constant : {1UL, 3UL, 5UL}) {
        const auto divisor = rho_divisor(n, constant, budget);
        if (!divisor || *divisor != n)
            return divisor;
    }
    return std::nullopt;
}

/// Adds base^exponent to `out`, split as far as it goes.
void split(const Integer& base, const Rational& exponent, unsigned long& budget, Factors& out) {
    if (base == 1)
        return;
    if (base < Integer(trial_bound) * trial_bound || is_prime(base)) {
        out.push_back({base, exponent, true});
        return;
    }
    for (unsigned long k = 2; mpz_perfect_power_p(base.backend().data()); ++k) {
        Integer root;
        if (mpz_root(root.backend().data(), base.backend().data(), k))
            return split(root, exponent * Integer(k), budget, out);
    }
    if (const auto divisor = proper_divisor(base, budget)) {
        split(*divisor, exponent, budget, out);
        split(base / *divisor, exponent, budget, out);
        return;
    }
    out.push_back({base, exponent, false});
}

/// The product of numbers[from … to - 1], by halves, so that factors are of one length.
Integer product_of(const std::vector<unsigned>& numbers, std::size_t from, std::size_t to) {
    if (to - from == 1)
        return numbers[from];
    const std::size_t middle = (from + to) / 2;
    return product_of(numbers, from, middle) * product_of(numbers, middle, to);
}

/// The primes below trial_bound that divide `base`. Their product, taken modulo `base`, has the
/// same common divisor with it; so one division does for thousands.
std::vector<unsigned> small_divisors(const Integer& base) {
    static const std::vector<unsigned> primes = primes_up_to(trial_bound);
    static const Integer all = product_of(primes, 0, primes.size());
    Integer common = boost::multiprecision::gcd(Integer(all % base), base);
    std::vector<unsigned> found;
    for (std::size_t i = 0; common > 1; ++i)
        if (mpz_divisible_ui_p(common.backend().data(), primes[i]) != 0) {
            found.push_back(primes[i]);
            common /= primes[i];
        }
    return found;
}

/// Takes the primes below trial_bound out of `base`.
void split_by_trial(Integer base, const Rational& exponent, unsigned long& budget, Factors& out) {
    for (const unsigned p : small_divisors(base)) {
        const Integer prime(p);
        const auto count =
            mpz_remove(base.backend().data(), base.backend().data(), prime.backend().data());
        out.push_back({prime, exponent * Integer(count), true});
    }
    split(base, exponent, budget, out);
}

} // namespace

Factors split_into_primes(const Factors& a, unsigned long budget) {
    Factors result;
    for (const Factor& f : a) {
        if (f.prime) {
            result = product(result, {f});
            continue;
        }
        Factors parts;
        split_by_trial(f.base, f.exponent, budget, parts);
        // One part at a time, since a prime may have been found twice.
        for (const Factor& part : parts)
            result = product(result, {part});
    }
    return result;
}

} // namespace sectio
