// What equal divisions are judged by, and which targets add up.

#include "support/errors.hpp"
#include "support/intervals.hpp"

#include <sectio/base/limits.hpp>
#include <sectio/division/targets.hpp>

#include <catch2/catch.hpp>

#include <algorithm>

using namespace sectio;
using support::interval;

TEST_CASE("The 5-odd-limit has six targets in the octave") {
    // H. Partch, Genesis of a Music: the 5-limit diamond.
    std::vector<Interval> expected;
    for (const char* text : {"6/5", "5/4", "4/3", "3/2", "8/5", "5/3"})
        expected.push_back(interval(text));
    CHECK(odd_limit_targets(5).intervals == expected);
    CHECK(odd_limit_targets(6).intervals == expected);
}

TEST_CASE("The 11-odd-limit has the 28 ratios of Partch's diamond besides 1/1") {
    // Genesis of a Music counts 29 ratios, 1/1 among them.
    CHECK(odd_limit_targets(11).intervals.size() == 28);
}

TEST_CASE("Odd-limit targets ascend strictly inside the octave") {
    const auto targets = odd_limit_targets(45).intervals;
    CHECK(targets.front() > Interval());
    CHECK(targets.back() < Interval::octave());
    CHECK(std::is_sorted(targets.begin(), targets.end()));
    CHECK(std::adjacent_find(targets.begin(), targets.end()) == targets.end());
}

TEST_CASE("Prime targets are the primes themselves") {
    const auto targets = prime_targets(13).intervals;
    REQUIRE(targets.size() == 6);
    CHECK(targets.front() == interval("2/1"));
    CHECK(targets.back() == interval("13/1"));
}

TEST_CASE("Whole numbers of periods are no targets") {
    Targets some{{interval("1/1"), interval("3/2"), interval("2/1"), interval("4/1")}};
    CHECK(without_periods(some, interval("2/1")).intervals == std::vector{interval("3/2")});
    CHECK(without_periods(some, interval("4/1")).intervals
          == std::vector{interval("3/2"), interval("2/1")});
    some.intervals = {interval("9/1"), interval("1/1")};
    CHECK(support::name_of(support::error_of([&] { without_periods(some, interval("3/1")); }))
          == "no_targets");
    some.intervals.assign(limits::division_targets + 1, interval("3/2"));
    CHECK(support::name_of(support::error_of([&] { without_periods(some, interval("2/1")); }))
          == "too_many_targets");
}

TEST_CASE("Limits are read by their names, and refused with their place") {
    CHECK(parse_limit_targets("odd:9")->odd_limit == 9u);
    CHECK(parse_limit_targets(" primes: 7 ")->intervals.size() == 4);
    CHECK(!parse_limit_targets("3/2,5/4"));
    CHECK(!parse_limit_targets("oddity"));
    const auto fault = [](const char* text) {
        const auto error = support::error_of([&] {
            parse_limit_targets(text, {"--targets", 0, 1});
        });
        return support::name_of(error) + " " + (error ? error->place().text() : "");
    };
    CHECK(fault("odd:") == "expected_limit --targets:5");
    CHECK(fault("odd:1") == "odd_limit_out_of_range --targets:5");
    CHECK(fault("odd:99999999999999999999") == "odd_limit_out_of_range --targets:5");
    CHECK(fault("primes:1") == "prime_targets_out_of_range --targets:8");
    CHECK(fault("odd:9 x") == "unexpected_text --targets:7");
}

TEST_CASE("The largest odd limit keeps to the limit of targets and the next one does not") {
    CHECK(odd_limit_targets(221).intervals.size() <= limits::division_targets);
    CHECK(support::name_of(support::error_of([] { odd_limit_targets(223); }))
          == "odd_limit_out_of_range");
}

namespace {

/// Sums found the slow way: every pair, by exact equality up to periods.
std::size_t sums_by_pairs(const Targets& targets, const Interval& period) {
    std::size_t count = 0;
    const auto& t = targets.intervals;
    for (std::size_t i = 0; i < t.size(); ++i)
        for (std::size_t j = i; j < t.size(); ++j) {
            const Interval sum = reduced(t[i] + t[j], period);
            count += sum.is_unison();
            for (const Interval& other : t)
                count += reduced(other, period) == sum;
        }
    return count;
}

} // namespace

TEST_CASE("All pairs of a list whose sum is a target are found") {
    Targets list{{interval("9/8"), interval("5/4"), interval("3/2"), interval("6/5"),
                  interval("5/3"), interval("15/8"), interval("31of53"), interval("22of53")}};
    for (const char* period : {"2/1", "3/1", "3/2"}) {
        CAPTURE(period);
        const auto sums = target_sums(list, interval(period));
        CHECK(sums.size() == sums_by_pairs(list, interval(period)));
        for (const TargetSum& s : sums)
            CHECK(list.intervals[s.first] + list.intervals[s.second]
                  == (s.sum ? list.intervals[*s.sum] : Interval())
                         + Integer(s.periods) * interval(period));
    }
}

TEST_CASE("The sums of an odd limit hold exactly") {
    const Targets targets = odd_limit_targets(15);
    const auto sums = target_sums(targets, Interval::octave());
    CHECK(sums.size() == 21); // pairs of different odd numbers 3 … 15
    for (const TargetSum& s : sums)
        CHECK(targets.intervals[s.first] + targets.intervals[s.second]
              == targets.intervals[*s.sum] + Integer(s.periods) * Interval::octave());
}
