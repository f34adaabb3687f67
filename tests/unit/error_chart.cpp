// The drawing of divisions' errors against their number.

#include <sectio/sheet/division_ranking.hpp>
#include <sectio/sheet/error_chart.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

using namespace sectio;

namespace {

DivisionRanking ranking(std::int64_t from, std::int64_t to) {
    Targets targets;
    targets.intervals = {Interval::from_ratio(Integer(3), Integer(2))};
    DivisionRanking result{ErrorTable(targets), "3/2", {}, std::nullopt};
    result.divisions.resize(static_cast<std::size_t>(to - from + 1));
    std::iota(result.divisions.begin(), result.divisions.end(), from);
    return result;
}

} // namespace

TEST_CASE("Spots stand by number and error on their axes, records bold with their number") {
    const auto chart = error_chart(ranking(1, 60));
    REQUIRE(chart);
    REQUIRE(chart->dots.size() == 60);
    auto dots = chart->dots;
    std::sort(dots.begin(), dots.end(), [](const auto& a, const auto& b) { return a.x < b.x; });
    // Both axes are logarithmic; errors of 1 and 2 divisions are 498.045 and 101.955 cents.
    const double octave = dots[1].x - dots[0].x;
    CHECK(dots[3].x - dots[1].x == Approx(octave));
    CHECK(dots[52].x - dots[0].x == Approx(octave * std::log2(53)));
    const double unit = (dots[1].y - dots[0].y) / std::log(498.045 / 101.955);
    CHECK(dots[11].y - dots[0].y == Approx(unit * std::log(498.045 / 1.955)).epsilon(1e-4));
    for (const auto& s : dots) {
        CHECK(s.y > 0);
        CHECK(s.y < chart->height);
        CHECK(s.x <= chart->width);
    }
    // Records of the fifth: 1 2 3 5 7 12 29 41 53.
    std::vector<int> numbers;
    for (const auto& label : chart->labels)
        if (label.bold)
            numbers.push_back(std::stoi(label.text));
    std::sort(numbers.begin(), numbers.end());
    CHECK(numbers == std::vector<int>{1, 2, 3, 5, 7, 12, 29, 41, 53});
    CHECK(std::count_if(dots.begin(), dots.end(),
                        [&](const auto& s) { return s.radius == dots[0].radius; })
          == 9);
}

TEST_CASE("A logarithmic axis is numbered from end to end") {
    const auto chart = error_chart(ranking(1, 1000)); // no error is as great
    REQUIRE(chart);
    for (const char* number : {"1", "2", "5", "10", "20", "50", "100", "200", "500", "1000"}) {
        CAPTURE(number);
        CHECK(std::any_of(chart->labels.begin(), chart->labels.end(),
                          [&](const auto& l) { return !l.bold && l.text == number; }));
    }
}

TEST_CASE("A division without error stands at the foot with its number, last of the records") {
    Targets targets;
    targets.intervals = {Interval::from_steps(1, 4), Interval::from_steps(5, 12)};
    DivisionRanking whole{ErrorTable(targets), "", {1, 3, 5, 7, 9, 12}, ErrorKind::max};
    const auto chart = error_chart(whole);
    REQUIRE(chart);
    REQUIRE(chart->dots.size() == 6);
    const auto lowest = std::max_element(chart->dots.begin(), chart->dots.end(),
                                         [](const auto& a, const auto& b) { return a.y < b.y; });
    const auto of = [&](const std::string& text, bool bold) {
        return std::find_if(chart->labels.begin(), chart->labels.end(),
                            [&](const auto& l) { return l.text == text && l.bold == bold; });
    };
    REQUIRE(of("12", true) != chart->labels.end());
    CHECK(of("12", true)->x == lowest->x);
    CHECK(of("12", true)->y < lowest->y);
    REQUIRE(of("0", false) != chart->labels.end());
    CHECK(of("0", false)->y == Approx(lowest->y + 1));
}

TEST_CASE("A short range has even steps, and two divisions or none that errs no drawing") {
    const auto chart = error_chart(ranking(50, 60));
    REQUIRE(chart);
    auto dots = chart->dots;
    std::sort(dots.begin(), dots.end(), [](const auto& a, const auto& b) { return a.x < b.x; });
    CHECK(dots[10].x - dots[0].x == Approx(10 * (dots[1].x - dots[0].x)));
    CHECK_FALSE(error_chart(ranking(50, 51)).has_value());
    CHECK(error_chart(ranking(50, 52)).has_value());
    CHECK_FALSE(error_chart(ranking(1, 2001)).has_value());
}
