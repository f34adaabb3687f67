// The simplest ratios near an interval, against all ratios tried one by one.

#include "support/errors.hpp"
#include "support/intervals.hpp"

#include <sectio/approx/near_ratios.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <numeric>

using namespace sectio;
using support::interval;

namespace {

bool within_limit(int n, unsigned prime_limit) {
    for (int p = 2; p <= static_cast<int>(prime_limit); ++p)
        while (n % p == 0)
            n /= p;
    return n == 1;
}

/// Every a/b with both terms up to `max_term`, tried one by one.
std::vector<Interval> slow(const Interval& target, const Interval& tolerance, int max_term,
                           std::optional<unsigned> prime_limit = std::nullopt) {
    struct Found {
        int product;
        Interval ratio;
    };
    std::vector<Found> found;
    for (int a = 1; a <= max_term; ++a)
        for (int b = 1; b <= max_term; ++b) {
            if (std::gcd(a, b) > 1)
                continue;
            if (prime_limit && !(within_limit(a, *prime_limit) && within_limit(b, *prime_limit)))
                continue;
            const Interval ratio = Interval::from_ratio(a, b);
            if (absolute(ratio - target) <= tolerance)
                found.push_back({a * b, ratio});
        }
    std::sort(found.begin(), found.end(), [](const Found& a, const Found& b) {
        return a.product != b.product ? a.product < b.product : a.ratio < b.ratio;
    });
    std::vector<Interval> ratios;
    for (const Found& f : found)
        ratios.push_back(f.ratio);
    return ratios;
}

} // namespace

TEST_CASE("All ratios in the bounds are found, simplest first") {
    for (const char* target : {"3/2", "702c", "31of53", "5^(1/4)", "-386c", "0c", "3000c", "1/1"})
        for (const char* tolerance : {"0c", "1c", "12c", "100c"}) {
            CAPTURE(target, tolerance);
            const NearBounds bounds{100'000, 48, std::nullopt};
            CHECK(near_ratios(interval(target), interval(tolerance), bounds)
                  == slow(interval(target), interval(tolerance), 48));
        }
}

TEST_CASE("All ratios of a prime limit in the bounds are found, simplest first") {
    for (const unsigned limit : {2u, 3u, 5u, 7u})
        for (const char* target : {"3/2", "590c", "-2c"}) {
            CAPTURE(target, limit);
            CHECK(near_ratios(interval(target), interval("30c"), {100'000, 150, limit})
                  == slow(interval(target), interval("30c"), 150, limit));
        }
}

TEST_CASE("The first few are the simplest few") {
    const auto all = near_ratios(interval("702c"), interval("20c"), {1000, 200, std::nullopt});
    const auto few = near_ratios(interval("702c"), interval("20c"), {5, 200, std::nullopt});
    CHECK(few == std::vector<Interval>(all.begin(), all.begin() + 5));
    CHECK(few.front() == interval("3/2"));
}

TEST_CASE("The tolerance includes its value, exactly") {
    const Interval comma = interval("81/80");
    CHECK(near_ratios(interval("5/4"), comma, {1, 80, 5u}).front() == interval("5/4"));
    const auto near = near_ratios(interval("5/4"), comma, {1000, 81, std::nullopt});
    CHECK(std::count(near.begin(), near.end(), interval("81/64")) == 1);
    const auto less = near_ratios(interval("5/4"), interval("21.506c"), {1000, 81, std::nullopt});
    CHECK(std::count(less.begin(), less.end(), interval("81/64")) == 0);
}

TEST_CASE("An interval far from simple ratios has none, and unlawful bounds are refused") {
    CHECK(near_ratios(interval("10c"), interval("1c"), {10, 50, std::nullopt}).empty());
    const auto fault = [](const char* tolerance, NearBounds bounds) {
        return support::name_of(
            support::error_of([&] { near_ratios(interval("3/2"), interval(tolerance), bounds); }));
    };
    CHECK(fault("-1c", {}) == "tolerance_negative");
    CHECK(fault("1c", {1, 0, std::nullopt}) == "bound_not_positive");
    CHECK(fault("1c", {1, 100, 37u}) == "prime_limit_out_of_range");
}

TEST_CASE("Nearing ratios: each the simplest within a quarter of the last one's distance") {
    for (const char* target : {"350c", "702c", "-5c", "81/80", "5^(1/4)", "31of53", "3000.1c"}) {
        CAPTURE(target);
        const Interval interval = support::interval(target);
        const auto found =
            successive_approximations(interval, support::interval("10c"), {4, 60, {}});
        std::vector<Interval> expected;
        for (Interval reach = support::interval("10c"); expected.size() < 4;) {
            const auto all = slow(interval, reach, 60);
            if (all.empty())
                break;
            expected.push_back(all.front());
            reach = absolute(all.front() - interval) * Rational(1, 4);
            if (reach.is_unison())
                break;
        }
        CHECK(found == expected);
    }
    const auto texts = [](const char* target) {
        std::string text;
        for (const Interval& ratio : successive_approximations(interval(target), interval("10c")))
            text += (text.empty() ? "" : " ") + to_expression(ratio);
        return text;
    };
    CHECK(texts("350c").starts_with("11/9 60/49 "));
    CHECK(texts("3/2") == "3/2");
    CHECK(texts("81/80").ends_with(" 81/80"));
}

TEST_CASE("Near ratios keep their bound of terms however wide the interval is") {
    const NearBounds bounds{10, 1 << 20, std::nullopt};
    for (const char* target : {"24000c", "24001c", "25200c", "30000c", "2^30", "-30000c"}) {
        CAPTURE(target);
        for (const Interval& ratio : near_ratios(interval(target), interval("10c"), bounds)) {
            CHECK(ratio.ratio()->numerator() <= bounds.max_term);
            CHECK(ratio.ratio()->denominator() <= bounds.max_term);
        }
    }
    CHECK(near_ratios(interval("30000c"), interval("10c"), bounds).empty());
    CHECK(near_ratios(interval("2^20"), interval("0c"), bounds).size() == 1);
}
