#include <sectio/interval/expression.hpp>

#include <catch2/catch.hpp>

using sectio::Interval;

TEST_CASE("Four quarter fifths make a fifth") {
    const Interval root = sectio::parse_interval("5^(1/4)");
    CHECK(root + root + root + root == Interval::ratio(5));
}
