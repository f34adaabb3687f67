// Factors: small primes, semiprimes, powers, and terms out of reach of factoring. The primes are
// the largest ones below 2^32 (C. Caldwell, "Prime Pages", largest primes below 2^n) and Mersenne
// primes 2^n - 1 (OEIS A000043).

#include <support/intervals.hpp>

#include <sstream>

using sectio::Factor;
using sectio::Factors;
using sectio::Integer;
using sectio::Interval;
using sectio::Rational;
using support::interval;

namespace {

Integer mersenne(unsigned n) {
    return (Integer(1) << n) - 1;
}

/// "2^-4 3^4 5^-1", a base that is not known to be prime in brackets.
std::string text(const Factors& factors) {
    std::ostringstream out;
    for (const Factor& f : factors) {
        out << (&f == &factors.front() ? "" : " ") << (f.prime ? "" : "[") << f.base
            << (f.prime ? "" : "]");
        if (f.exponent != Rational(1))
            out << "^" << f.exponent.numerator();
        if (f.exponent.denominator() != 1)
            out << "/" << f.exponent.denominator();
    }
    return out.str();
}

} // namespace

TEST_CASE("Prime factors") {
    struct Row {
        const char *given, *factors;
    };
    const Row row = GENERATE(values<Row>({
        {"1/1", ""},
        {"81/80", "2^-4 3^4 5^-1"},
        {"47/43", "43^-1 47"},
        {"53/59", "53 59^-1"},
        {"2809", "53^2"},
        {"3127", "53 59"},
        {"(3/2)^(1/4)", "2^-1/4 3^1/4"},
        {"31of53", "2^31/53"},
        {"701.955c", "2^46797/80000"},
        {"65521/65537", "65521 65537^-1"},
        {"4295098369", "65537^2"},
        {"18446743979220271189", "4294967279 4294967291"}, // the two largest primes below 2^32
        {"18446744030759878681", "4294967291^2"},
        {"18446744073709551557", "18446744073709551557"}, // the largest prime below 2^64
        {"1000000007/998244353", "998244353^-1 1000000007"},
        {"600851475143", "71 839 1471 6857"},
        {"4294967291^7/4294967279^(1/3)", "4294967279^-1/3 4294967291^7"},
        {"720720", "2^4 3^2 5 7 11 13"},
    }));
    INFO(row.given);
    CHECK(text(interval(row.given).prime_factors()) == row.factors);
}

TEST_CASE("Longer numbers whose primes are within reach") {
    // 2^61-1 and 2^31-1 are primes: rho finds the smaller of them.
    const Interval mixed = Interval::from_ratio(mersenne(61) * mersenne(31));
    CHECK(text(mixed.prime_factors()) == mersenne(31).str() + " " + mersenne(61).str());
    const Interval cube = Interval::from_ratio(boost::multiprecision::pow(mersenne(61), 3));
    CHECK(text(cube.prime_factors()) == mersenne(61).str() + "^3");
    const Interval prime = Interval::from_ratio(mersenne(127), mersenne(89));
    CHECK(text(prime.prime_factors()) == mersenne(89).str() + "^-1 " + mersenne(127).str());
    // 2^101 - 1 = 7432339208719 * 341117531003194129 (Lehmer; Cunningham tables).
    const Factors hard = Interval::from_ratio(mersenne(101)).prime_factors();
    Integer product = 1;
    for (const Factor& f : hard)
        product *= f.base;
    CHECK(product == mersenne(101)); // whether split or not
}

TEST_CASE("Terms out of reach of factoring are exact all the same") {
    const Integer p = mersenne(2203), q = mersenne(1279), r = mersenne(607);
    const Interval pq = Interval::from_ratio(p * q), pr = Interval::from_ratio(p * r);
    const Interval qr = Interval::from_ratio(q * r);

    CHECK(pq - pr == Interval::from_ratio(q, r));
    CHECK(Interval::from_ratio(p * q, p * r) == Interval::from_ratio(q, r));
    CHECK(pq + qr - pr == 2 * Interval::from_ratio(q));
    CHECK(pq + pr + qr
          == 2 * (Interval::from_ratio(p) + Interval::from_ratio(q) + Interval::from_ratio(r)));
    CHECK(pq != pr);
    CHECK(pq > pr);
    CHECK(Interval::from_ratio(q) - Interval::from_ratio(r) == pq - pr);

    SECTION("roots") {
        const Rational half(1, 2);
        CHECK(pq * half + pq * half == pq);
        CHECK(pq * half - Interval::from_ratio(q) * half == Interval::from_ratio(p) * half);
        CHECK((pq * half + Interval::from_ratio(p, q) * half) == Interval::from_ratio(p));
        CHECK((pq * half + Interval::from_ratio(p, q) * half).is_ratio());
        CHECK_FALSE((pq * half).is_ratio());
        CHECK((pq + pq) * half == pq);
        // (q q r)^(1/2) (r)^(1/2) = q r, although q q r is no square.
        const Interval qqr = Interval::from_ratio(q * q * r) * half;
        CHECK_FALSE(qqr.is_ratio());
        CHECK(qqr + Interval::from_ratio(r) * half == Interval::from_ratio(q * r));
        CHECK((qqr + Interval::from_ratio(r) * half).is_ratio());
        CHECK(qqr - Interval::from_ratio(q) == Interval::from_ratio(r) * half);
    }
    SECTION("perfect powers") {
        const Interval cube = Interval::from_ratio(boost::multiprecision::pow(q, 3));
        CHECK(cube * Rational(1, 3) == Interval::from_ratio(q));
        CHECK((cube * Rational(1, 3)).is_ratio());
        CHECK(cube * Rational(1, 2) == Interval::from_ratio(q) * Rational(3, 2));
        CHECK(sectio::exact_quotient(cube, Interval::from_ratio(q * q)) == Rational(3, 2));
    }
    SECTION("the factors as kept are coprime, and their product is the number") {
        const Interval sum = pq + qr - 3 * pr;
        for (const Factor& a : sum.factors())
            for (const Factor& b : sum.factors())
                if (&a != &b)
                    CHECK(boost::multiprecision::gcd(a.base, b.base) == 1);
        CHECK(sum
              == 2 * Interval::from_ratio(q) - 2 * Interval::from_ratio(r)
                     - 2 * Interval::from_ratio(p));
    }
    SECTION("primes found by meeting another number") {
        CHECK(text((pq - qr).prime_factors())
              == r.str() + "^-1 " + p.str()); // r < p; both are proved probable primes
        const Factors alone = pq.prime_factors();
        REQUIRE(alone.size() == 1);
        CHECK_FALSE(alone.front().prime);
    }
    SECTION("printed and read again") {
        CHECK(interval(sectio::to_expression(pq)) == pq);
        CHECK(interval(sectio::to_expression(pq * Rational(1, 7))) == pq * Rational(1, 7));
        CHECK(interval(sectio::to_expression(pq - pr)) == pq - pr);
    }
}

TEST_CASE("Equality does not depend on the way taken") {
    // One interval by many ways, over factors that meet late.
    const Integer a = 3127 * Integer(3599), b = 3599 * Integer(4087), c = 3127 * Integer(4087);
    // 3127 = 53*59, 3599 = 59*61, 4087 = 61*67
    const Interval abc =
        Interval::from_ratio(a) + Interval::from_ratio(b) + Interval::from_ratio(c);
    CHECK(abc == interval("2 x 3127 + 2 x 3599 + 2 x 4087"));
    CHECK(abc == interval("2 x 53 + 4 x 59 + 4 x 61 + 2 x 67"));
    CHECK(abc == Interval::from_ratio(a * b * c));
    CHECK(abc * Rational(1, 2) == interval("53 + 2 x 59 + 2 x 61 + 67"));
    CHECK((abc * Rational(1, 2)).is_ratio());
}

TEST_CASE("A factor of prime form stays prime through refinement") {
    const Factors factors = (interval("3127/3599") + interval("59/53")).prime_factors();
    CHECK(text(factors) == "59 61^-1");
}
