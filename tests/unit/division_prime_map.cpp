// The map of primes, and where it parts from the nearest step.

#include "support/intervals.hpp"

#include <sectio/division/val.hpp>

#include <catch2/catch.hpp>

using namespace sectio;
using support::interval;

TEST_CASE("The primes in 12 and 53 equal steps") {
    const Val twelve(EqualDivision(12), 13), fifty_three(EqualDivision(53), 13);
    CHECK(twelve.steps() == std::vector<Integer>{12, 19, 28, 34, 42, 44});
    CHECK(fifty_three.steps() == std::vector<Integer>{53, 84, 123, 149, 183, 196});
}

TEST_CASE("Steps of ratios add up from the primes") {
    const EqualDivision division(12);
    const Val map(division, 5);
    CHECK(map.steps_of(interval("81/80")) == Integer(0));
    CHECK(map.steps_of(interval("3/2")) == Integer(7));
    CHECK(map.steps_of(interval("1/1")) == Integer(0));
    CHECK(!map.steps_of(interval("7/4")));
    CHECK(!map.steps_of(interval("1of12")));
}

TEST_CASE("Steps by primes and the nearest step may differ, either way") {
    // 648/625 is 62.6 cents, nearer to one step of 12 than to none, but its primes cancel.
    CHECK(Val(EqualDivision(12), 5).steps_of(interval("648/625")) == Integer(0));
    CHECK(EqualDivision(12).nearest(interval("648/625")) == 1);
    // 81/80 is a quarter of a step of 13, but its primes make two of them.
    CHECK(Val(EqualDivision(13), 5).steps_of(interval("81/80")) == Integer(2));
    CHECK(EqualDivision(13).nearest(interval("81/80")) == 0);
}
