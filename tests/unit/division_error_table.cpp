// Error tables: order, records and ties against the exact engine's own slow answers.

#include "support/errors.hpp"
#include "support/intervals.hpp"

#include <sectio/base/limits.hpp>
#include <sectio/division/division.hpp>
#include <sectio/division/error_table.hpp>
#include <sectio/print/print.hpp>
#include <sectio/sheet/division_ranking.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <numeric>

using namespace sectio;
using support::interval;

namespace {

Targets list(std::initializer_list<const char*> texts) {
    Targets targets;
    for (const char* text : texts)
        targets.intervals.push_back(interval(text));
    return targets;
}

/// The largest absolute error by intervals alone.
Interval largest_error(const std::vector<Interval>& targets, const EqualDivision& division) {
    Interval largest;
    for (const Interval& target : targets)
        largest = std::max(largest, absolute(division.error(target)));
    return largest;
}

std::vector<std::int64_t> slow_records(const ErrorTable& table, std::int64_t to) {
    std::vector<std::int64_t> records;
    std::optional<Interval> best;
    for (std::int64_t n = 1; n <= to; ++n) {
        const Interval error = largest_error(table.targets(), EqualDivision(n, table.period()));
        if (best && !(error < *best))
            continue;
        best = error;
        records.push_back(n);
    }
    return records;
}

std::vector<std::int64_t> slow_order(const ErrorTable& table, std::int64_t to) {
    std::vector<std::int64_t> order(static_cast<std::size_t>(to));
    std::iota(order.begin(), order.end(), 1);
    std::stable_sort(order.begin(), order.end(), [&](std::int64_t a, std::int64_t b) {
        return largest_error(table.targets(), EqualDivision(a, table.period()))
               < largest_error(table.targets(), EqualDivision(b, table.period()));
    });
    return order;
}

/// Consistency by its definition: for every two targets whose sum is a target up to octaves, their
/// nearest steps add up to its.
bool consistent_by_pairs(const std::vector<Interval>& targets, const EqualDivision& division) {
    for (const Interval& a : targets)
        for (const Interval& b : targets) {
            const Interval sum = a + b, inside = reduced(sum);
            const Integer octaves = whole_periods(sum, Interval::octave());
            if (!inside.is_unison()
                && std::find(targets.begin(), targets.end(), inside) == targets.end())
                continue;
            if (division.nearest(a) + division.nearest(b)
                != division.nearest(inside) + octaves * division.steps())
                return false;
        }
    return true;
}

} // namespace

TEST_CASE("Order and records of the maximum error are those of exact intervals") {
    const std::pair<Targets, const char*> cases[] = {
        {odd_limit_targets(5), "2/1"},
        {odd_limit_targets(9), "3/1"},
        {list({"3/2"}), "2/1"},
        {list({"3/2", "5/4", "31of53", "701.955c"}), "3/2"},
        {list({"600c", "400c"}), "2/1"},
        {list({"800.0001c"}), "2/1"},
        {list({"1c", "7/5", "-4/3"}), "2/1"},
    };
    for (const auto& [targets, period] : cases) {
        const ErrorTable table(targets, interval(period));
        CAPTURE(targets.intervals, period);
        CHECK(table.records(ErrorKind::max, {1, 60}) == slow_records(table, 60));
        CHECK(table.best(ErrorKind::max, {1, 60}, 60) == slow_order(table, 60));
    }
}

TEST_CASE("A division that repeats a smaller one's error is no record") {
    // 24 brings 3/2 no nearer than 12 does; nor does any multiple of 53 before 200.
    const ErrorTable fifth(list({"3/2"}));
    CHECK(fifth.records(ErrorKind::max, {1, 1000})
          == std::vector<std::int64_t>{1, 2, 3, 5, 7, 12, 29, 41, 53, 200, 253, 306, 359, 665});
    CHECK(fifth.records(ErrorKind::rms, {1, 1000}) == fifth.records(ErrorKind::max, {1, 1000}));
    CHECK(fifth.row(24).max_error_cents.decimal(20) == fifth.row(12).max_error_cents.decimal(20));
    // Half way: 600c is half a step off in 1, and exact in 2 and all even ones.
    const ErrorTable half(list({"600c"}));
    CHECK(half.records(ErrorKind::max, {1, 10'000'000}) == std::vector<std::int64_t>{1, 2});
    CHECK(half.best(ErrorKind::max, {1, 100}, 3) == std::vector<std::int64_t>{2, 4, 6});
}

TEST_CASE("Ties by the million are seen as ties") {
    // Every third division up to 4 million has 800.0001c at the very same place, 2/3 octave.
    const ErrorTable table(list({"800.0001c"}));
    CHECK(table.records(ErrorKind::max, {1, 2'000'001}) == std::vector<std::int64_t>{1, 2, 3});
    CHECK(table.best(ErrorKind::rms, {1, 1'000'000}, 3) == std::vector<std::int64_t>{3, 6, 9});
}

TEST_CASE("Different places with the same error are a tie as well") {
    // 1/12 octave above and below 5/12: in 3 steps 4/12 is nearest, in 2 steps 6/12. Both are 100
    // cents off.
    const ErrorTable table(list({"5of12"}));
    CHECK(table.row(2).max_error_cents.decimal(3) == "100.000");
    CHECK(table.row(3).max_error_cents.decimal(3) == "100.000");
    CHECK(table.records(ErrorKind::max, {1, 4}) == std::vector<std::int64_t>{1, 2});
    CHECK(table.records(ErrorKind::rms, {1, 4}) == std::vector<std::int64_t>{1, 2});
}

TEST_CASE("Records of both measures in one go are those of each") {
    const ErrorTable table(odd_limit_targets(7));
    const auto both = table.records({100, 5000});
    CHECK(both.max == table.records(ErrorKind::max, {100, 5000}));
    CHECK(both.rms == table.records(ErrorKind::rms, {100, 5000}));
    const auto whole = table.records({1, 400});
    CHECK(whole.max == table.records(ErrorKind::max, {1, 400}));
    CHECK(whole.max.front() == 1); // nothing comes before it
    CHECK(whole.rms.front() == 1);
}

TEST_CASE("Records begin with division 1 wherever the range begins") {
    const ErrorTable table(odd_limit_targets(5));
    auto all = table.records(ErrorKind::max, {1, 400});
    std::erase_if(all, [](std::int64_t n) { return n < 50; });
    CHECK(table.records(ErrorKind::max, {50, 400}) == all);
}

TEST_CASE("The best few are the head of the whole order") {
    const ErrorTable table(odd_limit_targets(7));
    for (const ErrorKind kind : {ErrorKind::max, ErrorKind::rms, ErrorKind::relative}) {
        const auto all = table.best(kind, {1, 2000}, 2000);
        const auto few = table.best(kind, {1, 2000}, 7);
        CHECK(std::equal(few.begin(), few.end(), all.begin()));
        auto sorted = all;
        std::sort(sorted.begin(), sorted.end());
        CHECK(sorted.front() == 1);
        CHECK(sorted.size() == 2000);
    }
}

TEST_CASE("Consistency is that of all pairs of targets") {
    for (const unsigned limit : {3u, 7u, 11u}) {
        const ErrorTable table(odd_limit_targets(limit));
        for (std::int64_t n = 1; n <= 50; ++n) {
            CAPTURE(limit, n);
            CHECK(table.row(n).consistent
                  == consistent_by_pairs(table.targets(), EqualDivision(n)));
        }
    }
}

TEST_CASE("Targets without sums have no consistency") {
    CHECK(!ErrorTable(list({"3/2"})).row(12).consistent);
    CHECK(!ErrorTable(prime_targets(7)).row(12).consistent);
    CHECK(ErrorTable(list({"3/2", "5/4", "6/5"})).row(12).consistent == true);
    CHECK(ErrorTable(list({"3/2", "5/4", "6/5"})).row(13).consistent == false);
}

TEST_CASE("Errors that are exactly half of the last digit go to the even one") {
    CHECK(ErrorTable(list({"0.0005c"})).row(1).max_error_cents.decimal(3) == "0.000");
    CHECK(ErrorTable(list({"0.0015c"})).row(1).max_error_cents.decimal(3) == "0.002");
    CHECK(ErrorTable(list({"0.0025c"})).row(1).rms_error_cents.decimal(3) == "0.002");
    // sqrt((1 + 49) / 2) = 5; sqrt((0.3^2 + 0.1^2) / 2) = 0.22360…
    CHECK(ErrorTable(list({"1c", "7c"})).row(1).rms_error_cents.decimal(3) == "5.000");
    CHECK(ErrorTable(list({"0.3c", "0.1c"})).row(1).rms_error_cents.decimal(10) == "0.2236067977");
    CHECK(ErrorTable(list({"3of53"})).row(53).rms_error_cents.decimal(2) == "0.00");
    CHECK(ErrorTable(list({"3^(1/7)"}), interval("3/1")).row(7).rms_error_cents.decimal(2)
          == "0.00");
}

TEST_CASE("The worst target is the first of those with the largest error") {
    const ErrorTable table(list({"3/2", "4/3", "5/4", "8/5"}));
    CHECK(table.row(12).worst == 2); // 5/4 and 8/5 are 13.686 cents off, one each way
    CHECK(table.row(12).max_error_cents.decimal(3) == "13.686");
    CHECK(table.row(53).max_error_cents.decimal(3) == "1.408");
}

TEST_CASE("Where no target errs none is the worst") {
    const auto row = ErrorTable(list({"7of12", "400c"})).row(12);
    CHECK(row.max_error_cents.decimal(3) == "0.000");
    CHECK(!row.worst);
    CHECK(ErrorTable(list({"7of12", "3/2"})).row(12).worst == 1);
    // Nought as screened, but not exactly: 3^(1/2^60) is not 1/1.
    CHECK(ErrorTable(list({"7of12", "3of1152921504606846976"})).row(12).worst == 1);
}

TEST_CASE("The relative error is the largest one in steps") {
    const ErrorTable fifth(list({"3/2"}));
    // 1.955000865 cents of steps of 100; of 12/53 of it, 0.068 of 22.64.
    CHECK(fifth.row(12).max_error_steps.decimal(9) == "0.019550009");
    CHECK(fifth.row(12).max_error_steps.decimal(20) == "0.01955000865387417744");
    CHECK(fifth.row(53).max_error_steps.decimal(6) == "0.003013");
    CHECK(fifth.best(ErrorKind::relative, {1, 60}, 2) == std::vector<std::int64_t>{53, 41});
    // Half a step is exactly half a step, and rounds to even.
    CHECK(ErrorTable(list({"1of24"})).row(12).max_error_steps.decimal(1) == "0.5");
    CHECK(ErrorTable(list({"1of24"})).row(12).max_error_steps.decimal(0) == "0");
    // Every odd division is half a step off: ties go by number.
    CHECK(ErrorTable(list({"600c"})).best(ErrorKind::relative, {1, 10}, 7)
          == std::vector<std::int64_t>{2, 4, 6, 8, 10, 1, 3});
}

TEST_CASE("Order and records of the relative error are those of exact intervals") {
    for (const char* period : {"2/1", "3/1", "3/2"}) {
        const ErrorTable table(list({"3/2", "5/4", "31of53", "701.955c", "7/5"}), interval(period));
        std::vector<std::int64_t> order(120);
        std::iota(order.begin(), order.end(), 1);
        const auto relative = [&](std::int64_t n) {
            return Integer(n) * largest_error(table.targets(), EqualDivision(n, table.period()));
        };
        std::stable_sort(order.begin(), order.end(),
                         [&](std::int64_t a, std::int64_t b) { return relative(a) < relative(b); });
        CHECK(table.best(ErrorKind::relative, {1, 120}, 120) == order);
        std::vector<std::int64_t> records{1};
        for (std::int64_t n = 2; n <= 120; ++n)
            if (relative(n) < relative(records.back()))
                records.push_back(n);
        CHECK(table.records(ErrorKind::relative, {1, 120}) == records);
    }
}

TEST_CASE("The size of a comma that is a period is no guess") {
    // mpmath with 200 digits: distance of 3/2 from the nearest step, in cents.
    const ErrorTable mercator(list({"3/2"}), interval("3^53/2^84"));
    CHECK(mercator.row(63).max_error_cents.decimal(9) == "0.004904468");
    CHECK(mercator.row(63).max_error_cents.decimal(15) == "0.004904467500002");
    const ErrorTable tiny(list({"3/2"}), interval("3^225644606/2^357638239"));
    CHECK(tiny.row(1).max_error_cents.decimal(9) == "0.000000447");
    CHECK(tiny.row(1).max_error_cents.decimal(12) == "0.000000447343");
}

TEST_CASE("Long decimals come from the exact engine") {
    const auto row = ErrorTable(list({"3/2"})).row(12);
    // 1200 log2(3/2) - 700, by PARI/GP with 60 digits.
    CHECK(row.max_error_cents.decimal(30) == "1.955000865387417744486732737380");
    CHECK(row.rms_error_cents.rounded(30) == row.max_error_cents.rounded(30));
}

TEST_CASE("Ranges and rows beyond the limits are refused") {
    const ErrorTable table(odd_limit_targets(5));
    const auto fault = [](auto act) { return support::name_of(support::error_of(act)); };
    CHECK(fault([&] {
              table.records(ErrorKind::max, {1, 10'000'001});
          })
          == "division_out_of_range");
    CHECK(fault([&] { table.records(ErrorKind::max, {0, 10}); }) == "division_out_of_range");
    CHECK(fault([&] { table.best(ErrorKind::max, {10, 9}, 1); }) == "division_range_empty");
    CHECK(fault([&] {
              table.best(ErrorKind::max, {1, 1'000'000}, limits::listed_rows + 1);
          })
          == "too_many_rows");
    CHECK(fault([&] { table.row(0); }) == "division_out_of_range");
    CHECK(fault([&] { table.row(12).max_error_cents.decimal(-1); }) == "digits_out_of_range");
    CHECK(fault([] { ErrorTable(odd_limit_targets(5), interval("1/2")); }) == "period_not_rising");
    CHECK(table.best(ErrorKind::max, {1, 10}, 0).empty());
}

TEST_CASE("Work can be ended from its progress") {
    struct Stop {};
    const ErrorTable table(odd_limit_targets(5));
    const Progress stop = [](double) { throw Stop(); };
    CHECK_THROWS_AS(table.records(ErrorKind::max, {1, 10'000'000}, stop), Stop);
}

TEST_CASE("Printing a ranking tells how far it is, and its end") {
    std::vector<double> told;
    const DivisionRanking ranking{
        ErrorTable(odd_limit_targets(5)), "odd:5", {1, 2, 3, 4}, {}, [&](double done) {
            told.push_back(done);
        }};
    page::print_text(division_ranking_page(ranking));
    CHECK(told == std::vector<double>{0.25, 0.5, 0.75, 1});
}
