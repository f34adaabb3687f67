// Commas within bounds, against all pairs of numbers tried one by one.

#include "support/commas.hpp"
#include "support/errors.hpp"
#include "support/intervals.hpp"

#include <sectio/comma/commas.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <numeric>

using namespace sectio;
using support::interval;
using support::window;

namespace {

bool within_limit(long n, unsigned prime_limit) {
    for (long p = 2; p <= static_cast<long>(prime_limit); ++p)
        while (n % p == 0)
            n /= p;
    return n == 1;
}

std::vector<Interval> slow_commas(const CommaBounds& bounds, long most) {
    std::vector<Interval> found;
    for (long b = 1; b <= most; ++b)
        for (long a = b + 1; within_limit(b, bounds.prime_limit) && a <= most; ++a) {
            if (std::gcd(a, b) > 1 || !within_limit(a, bounds.prime_limit)
                || (bounds.max_term && a > *bounds.max_term)
                || (bounds.max_product && Integer(a) * b > *bounds.max_product))
                continue;
            const Interval comma = Interval::from_ratio(a, b);
            if (bounds.above < comma && comma < bounds.below)
                found.push_back(comma);
        }
    std::sort(found.begin(), found.end());
    return found;
}

std::vector<Interval> found_commas(const CommaBounds& bounds) {
    std::vector<Interval> intervals;
    for (const Exponents& e : commas(bounds))
        intervals.push_back(interval_of(e));
    return intervals;
}

} // namespace

TEST_CASE("All commas in the bounds are found, by size") {
    for (const unsigned limit : {2u, 3u, 5u, 7u, 13u, 31u}) {
        CommaBounds by_term = window(limit, "0c", "60c"), by_product = window(limit, "5c", "200c");
        by_term.max_term = 700;
        by_product.max_product = 40'000;
        CAPTURE(limit);
        CHECK(found_commas(by_term) == slow_commas(by_term, 700));
        CHECK(found_commas(by_product) == slow_commas(by_product, 700));
    }
}

TEST_CASE("Both bounds of the terms hold together") {
    CommaBounds both = window(5, "0c", "300c");
    both.max_term = 100;
    both.max_product = 7000;
    CHECK(found_commas(both) == slow_commas(both, 100));
}

TEST_CASE("Windows wider than an octave are searched as well") {
    CommaBounds wide = window(5, "0c", "3000c");
    wide.max_product = 500;
    CHECK(found_commas(wide) == slow_commas(wide, 500));
}

TEST_CASE("A bound of the terms includes its value, the bounds of size do not") {
    const auto has_syntonic = [](CommaBounds bounds) {
        const auto found = found_commas(bounds);
        return std::count(found.begin(), found.end(), interval("81/80")) == 1;
    };
    CommaBounds bounds = window(5, "0c", "30c");
    bounds.max_term = 81;
    CHECK(has_syntonic(bounds));
    bounds.max_term = 80;
    CHECK(!has_syntonic(bounds));
    bounds.max_term.reset();
    bounds.max_product = 6480;
    CHECK(has_syntonic(bounds));
    bounds.max_product = 6479;
    CHECK(!has_syntonic(bounds));
    bounds.max_product = 10'000;
    bounds.below = interval("81/80");
    CHECK(!has_syntonic(bounds));
    bounds.below = interval("30c");
    bounds.above = interval("81/80");
    CHECK(!has_syntonic(bounds));
    bounds.above = interval("21.506289c");
    CHECK(has_syntonic(bounds));
}

TEST_CASE("Long terms: Mercator's comma and its neighbours in the 3-limit") {
    CommaBounds bounds = window(3, "0c", "4c");
    bounds.max_term = Integer(1) << 90;
    CHECK(found_commas(bounds) == std::vector{interval("3^53/2^84")});
    // Every power of 3 with as many octaves as fit, and one more.
    const Integer longest = Integer(1) << 4095;
    bounds.max_term = longest;
    std::vector<Interval> expected;
    for (int threes = 1; threes <= 2583; ++threes) { // 3^2583 < 2^4095 < 3^2584
        const Interval above = reduced(threes * interval("3/1"));
        const Interval below = Interval::octave() - above;
        if (above < bounds.below)
            expected.push_back(above);
        if (below < bounds.below
            && whole_periods(threes * interval("3/1"), Interval::octave()) < 4095)
            expected.push_back(below);
    }
    std::sort(expected.begin(), expected.end());
    CHECK(found_commas(bounds) == expected);
}

TEST_CASE("Commas that vanish are those whose steps by primes are none") {
    for (const int steps : {5, 12, 19, 53}) {
        CommaBounds bounds = window(7, "0c", "80c");
        bounds.max_product = 1 << 20;
        auto expected = found_commas(bounds);
        bounds.tempered_out_in = EqualDivision(steps);
        const Val map(*bounds.tempered_out_in, 7);
        std::erase_if(expected, [&](const Interval& c) { return map.steps_of(c) != Integer(0); });
        CAPTURE(steps);
        CHECK(found_commas(bounds) == expected);
        CHECK(!expected.empty());
    }
}

TEST_CASE("Simplicity orders by the product of the terms") {
    CommaBounds bounds = window(7, "0c", "50c");
    bounds.max_product = 1 << 20;
    auto found = commas(bounds);
    sort_by_benedetti_height(found);
    for (std::size_t i = 1; i < found.size(); ++i)
        CHECK(numerator_of(found[i - 1]) * denominator_of(found[i - 1])
              <= numerator_of(found[i]) * denominator_of(found[i]));
    CHECK(interval_of(found.front()) == interval("36/35"));
}

TEST_CASE("Unlawful bounds are refused") {
    const auto fault = [](CommaBounds bounds) {
        return support::name_of(support::error_of([&] { commas(bounds); }));
    };
    CHECK(fault(window(5, "0c", "10c")) == "no_term_bound");
    CommaBounds bounds = window(37, "0c", "10c");
    bounds.max_term = 100;
    CHECK(fault(bounds) == "prime_limit_out_of_range");
    bounds.prime_limit = 5;
    bounds.max_term = 0;
    CHECK(fault(bounds) == "bound_not_positive");
    bounds.max_term = Integer(1) << 4096;
    CHECK(fault(bounds) == "term_too_large");
    bounds.max_term = 100;
    bounds.above = interval("-1c");
    CHECK(fault(bounds) == "above_falling");
    bounds.above = interval("10c");
    CHECK(fault(bounds) == "window_empty");
}

TEST_CASE("Where the product allows longer terms, the bound of the terms holds all the same") {
    CommaBounds bounds = window(7, "0c", "80c");
    bounds.max_product = 1 << 24; // terms up to some 4,200
    auto expected = found_commas(bounds);
    bounds.max_term = 300;
    std::erase_if(expected, [](const Interval& comma) { return comma.ratio()->numerator() > 300; });
    CHECK(expected.size() > 10);
    CHECK(found_commas(bounds) == expected);
}

TEST_CASE("A set of primes leaves the others out") {
    CommaBounds all = window(7, "0c", "80c");
    all.max_product = 1 << 24;
    auto expected = found_commas(all);
    std::erase_if(expected, [](const Interval& comma) {
        for (const Factor& f : comma.prime_factors())
            if (f.base == 5)
                return true;
        return false;
    });
    CommaBounds some = all;
    some.only = {2, 3, 7};
    CHECK(found_commas(some) == expected);
    CHECK(std::count(expected.begin(), expected.end(), interval("64/63")) == 1);
    // A number that all primes of the set divide has only 1 for a partner: 42/1 is far away, 8/7
    // is not.
    some.below = interval("8/1");
    some.above = interval("5/1");
    some.max_product = 100;
    const auto wide = found_commas(some);
    CHECK(std::count(wide.begin(), wide.end(), interval("6/1")) == 1);
    some.only = {2, 3};
    some.max_product = 6;
    CHECK(found_commas(some) == std::vector{interval("6/1")});
    some.only = {3};
    some.below = interval("10/1");
    some.max_product = 9;
    CHECK(found_commas(some) == std::vector{interval("9/1")});
}

TEST_CASE("A window whose end no double counts is searched as well") {
    CommaBounds wide = window(3, "0c", "1200c");
    wide.below = interval("2^" + std::string(40, '9'));
    wide.max_product = 12;
    CHECK(found_commas(wide) == slow_commas(wide, 12));
}
