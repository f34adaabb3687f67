// Continued fractions: ends, signs, certificates.

#include "support/errors.hpp"
#include "support/intervals.hpp"

#include <sectio/approx/certified_euclid.hpp>
#include <sectio/approx/continued_fraction.hpp>
#include <sectio/base/limits.hpp>

#include <catch2/catch.hpp>

#include <random>

using namespace sectio;
using support::interval;

namespace {

std::vector<Integer> quotients(const char* a, const char* measure, std::size_t count) {
    return continued_fraction(interval(a), interval(measure), count).quotients;
}

/// Euclid's algorithm on a fraction, to its end.
std::vector<Integer> euclid(Integer a, Integer b) {
    std::vector<Integer> result;
    while (b != 0) {
        result.push_back(a / b);
        a = std::exchange(b, a % b);
    }
    return result;
}

/// How many quotients the fractions of both ends share.
std::size_t shared(const std::vector<Integer>& a, const std::vector<Integer>& b) {
    return static_cast<std::size_t>(std::mismatch(a.begin(), a.end(), b.begin(), b.end()).first
                                    - a.begin());
}

} // namespace

TEST_CASE("A rational multiple has a fraction that ends") {
    const auto check = [](const char* a, const char* measure, std::vector<Integer> expected) {
        const auto fraction = continued_fraction(interval(a), interval(measure), 20);
        CAPTURE(a, measure);
        CHECK(fraction.ended);
        CHECK(fraction.quotients == expected);
    };
    check("4/1", "2/1", {2});
    check("1/1", "2/1", {0});
    check("31of53", "2/1", {0, 1, 1, 2, 2, 4});
    check("27/8", "9/4", {1, 2});
    check("-31of53", "2/1", {-1, 2, 2, 2, 4}); // -31/53 = -1 + 22/53
    check("2/3", "3/2", {-1});
}

TEST_CASE("A rational fraction that is cut short has not ended") {
    CHECK(!continued_fraction(interval("31of53"), interval("2/1"), 3).ended);
    CHECK(!continued_fraction(interval("3/2"), interval("2/1"), 3).ended);
}

TEST_CASE("Negative sizes and measures") {
    // log2(3/2) = [0; 1, 1, 2, 2, 3, 1, 5, 2, 23, …], OEIS A028507 without its first term.
    CHECK(quotients("3/2", "2/1", 10) == std::vector<Integer>{0, 1, 1, 2, 2, 3, 1, 5, 2, 23});
    CHECK(quotients("2/3", "1/2", 10) == std::vector<Integer>{0, 1, 1, 2, 2, 3, 1, 5, 2, 23});
    // -x = [-1; 2, 2, 2, …] where x = [0; 1, 1, 2, 2, …].
    CHECK(quotients("2/3", "2/1", 8) == std::vector<Integer>{-1, 2, 2, 2, 3, 1, 5, 2});
    CHECK(quotients("3/2", "2/1", 0).empty());
    CHECK(quotients("3/1", "2/1", 1) == std::vector<Integer>{1});
}

TEST_CASE("A size a hair off a simple fraction has one huge quotient") {
    // size = 7/12 + e with e = log2(81/80) / 10^40, so the quotient after [0; 1, 1, 2, 2] or its
    // like is near 1 / (144 e).
    const auto found =
        quotients("7of12 + (81/80)^(1/10000000000000000000000000000000000000000)", "2/1", 8);
    REQUIRE(found.size() == 8);
    const Integer largest = *std::max_element(found.begin(), found.end());
    CHECK(bit_length(largest) > 125);
    CHECK(bit_length(largest) < 135);
}

TEST_CASE("Certain quotients are those that both ends of the range share") {
    std::mt19937_64 random(20260101);
    const auto number = [&](unsigned bits) {
        Integer n = 1;
        for (unsigned i = 0; i < bits; i += 32)
            n = (n << 32) + (random() >> 32);
        return Integer(n >> (32 - bits % 32));
    };
    for (const unsigned bits : {3u, 40u, 61u, 62u, 63u, 64u, 90u, 128u, 500u, 3000u, 20000u})
        for (int i = 0; i < 20; ++i) {
            const Integer a = number(bits), b = number(bits - unsigned(i) % 3);
            const auto found = certain_quotients(a, b);
            const auto low = euclid(a, b + 2), high = euclid(a + 2, b);
            CAPTURE(bits, a, b);
            // Sound: shared by both ends. Sharp: at most a few of the last ones are missed.
            CHECK(shared(found, low) == found.size());
            CHECK(shared(found, high) == found.size());
            CHECK(found.size() + 30 >= shared(low, high));
        }
}

TEST_CASE("Ranges that hold small or huge quotients") {
    CHECK(certain_quotients(0, 0).empty());
    CHECK(certain_quotients(5, 0).empty());
    // 10^40 / 1: the quotient lies anywhere between 10^40 / 3 and 10^40.
    CHECK(certain_quotients(power_of_ten(40), 1).empty());
    const Integer big = power_of_ten(60);
    CHECK(certain_quotients(big * 3 + 100, big).front() == 3);
    // 3 + 7 / 10^30: after the 3 comes 10^30 / 7, cut to a whole number.
    const auto found = certain_quotients(big * 30'000 + 7 * power_of_ten(34), big * 10'000);
    REQUIRE(found.size() >= 2);
    CHECK(found[1] == power_of_ten(30) / 7);
}

TEST_CASE("Neighbouring convergents differ by the product of their denominators") {
    const auto fractions = convergents(continued_fraction(interval("5/4"), interval("3/2"), 500));
    REQUIRE(fractions.size() == 500);
    for (std::size_t i = 1; i < fractions.size(); ++i) {
        const Approximant &last = fractions[i - 1], &here = fractions[i];
        const Integer cross = here.steps * last.divisions - last.steps * here.divisions;
        REQUIRE(cross == (i % 2 == 0 ? -1 : 1));
    }
}

TEST_CASE("Intermediate fractions are the best from one side") {
    const auto found = approximants(continued_fraction(interval("3/2"), interval("2/1"), 30), 60);
    // Slow: a fraction k/n is best from its side if no fraction of a smaller or equal denominator
    // lies between it and log2(3/2).
    std::vector<Approximant> slow;
    std::optional<Interval> below, above;
    for (int n = 1; n <= 60; ++n)
        for (int k = 0; k <= n; ++k) {
            const Interval error = Interval::from_steps(k, n) - interval("3/2");
            auto& best = error < Interval() ? below : above;
            if (best && absolute(error) >= absolute(*best))
                continue;
            best = error;
            std::erase_if(slow, [&](const Approximant& a) {
                const bool same_side =
                    (Interval::from_steps(a.steps, a.divisions) < interval("3/2"))
                    == (error < Interval());
                return same_side && a.divisions == n;
            });
            slow.push_back({k, n, true});
        }
    std::vector<std::pair<Integer, Integer>> a, b;
    for (const auto& f : found)
        a.emplace_back(f.divisions, f.steps);
    for (const auto& f : slow)
        b.emplace_back(f.divisions, f.steps);
    std::sort(a.begin(), a.end());
    std::sort(b.begin(), b.end());
    CHECK(a == b);
}

TEST_CASE("Absurd requests are refused") {
    const auto fault = [](auto act) { return support::name_of(support::error_of(act)); };
    CHECK(fault([] { quotients("3/2", "1/1", 5); }) == "zero_power_of_nothing");
    CHECK(quotients("4/1", "2/1", limits::quotients) == std::vector<Integer>{2});
    CHECK(fault([] { quotients("4/1", "2/1", limits::quotients + 1); }) == "too_many_quotients");
}

TEST_CASE("A measure of any size measures") {
    // 1 / log2(3/2) = 1.70951129135145477697619026217401… (PARI/GP).
    const auto huge = continued_fraction(
        interval("3/2"), interval("2^" + std::string("1") + std::string(30, '0')), 2);
    CHECK(huge.quotients == std::vector<Integer>{0, Integer("1709511291351454776976190262174")});
    const auto tiny = continued_fraction(interval("3/2"), interval("3^225644606/2^357638239"), 1);
    CHECK(tiny.quotients == std::vector<Integer>{240'864'729}); // likewise
}
