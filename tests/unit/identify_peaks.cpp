// Peaks of a histogram of heights: how much one takes, and how near another may stand.

#include <sectio/identify/progression.hpp>

#include <catch2/catch.hpp>

#include <vector>

using namespace sectio;

TEST_CASE("A peak takes two hundredths of the time") {
    const auto second = [](double share) {
        return peaks({{0, 1 - share}, {500, share}}) == std::vector{0, 500};
    };
    CHECK(second(0.02));
    CHECK(second(0.021));
    CHECK_FALSE(second(0.0199));
}

TEST_CASE("A peak stands above all within six quarters of a comma, and is where its time is") {
    CHECK(peaks({{7, 1}}) == std::vector{7});
    CHECK(peaks({{-300, 0.5}, {-293, 0.5}}) == std::vector{-300, -293});
    CHECK(peaks({{-300, 0.6}, {-294, 0.4}}) == std::vector{-300});
    CHECK(peaks({{-300, 0.4}, {-294, 0.6}}) == std::vector{-294});
    CHECK(peaks({{10, 0.5}, {16, 0.5}}) == std::vector{10}); // of equals the lower
    // Time on both sides of a height makes its peak there.
    CHECK(peaks({{39, 0.3}, {40, 0.3}, {41, 0.4}}) == std::vector{40});
}
