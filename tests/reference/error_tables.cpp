// Error tables over 1 … 1000 against mpmath, which shares no code with Sectio.

#include "support/intervals.hpp"
#include "support/paths.hpp"
#include "support/process.hpp"

#include <sectio/division/error_table.hpp>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <map>
#include <random>
#include <sstream>

using namespace sectio;
using support::interval;

namespace {

/// Rows "division maximum RMS consistent" for all ratios of odd numbers up to a limit. The nearest
/// step of a/b in octaves is taken of the unreduced ratio, and a division called consistent where
/// those of all pairs are differences of the odd numbers' own steps.
constexpr const char* odd_limit_script = R"(
from mpmath import mp, mpf, log, nint, sqrt
from math import gcd
mp.dps = 50
limit, last = {0}, {1}
odd = range(1, limit + 1, 2)
size = {{n: log(mpf(n), 2) for n in odd}}
pairs = [(a, b) for a in odd for b in odd if a != b and gcd(a, b) == 1]
every = [(a, b) for a in odd for b in odd]
def shown(x):
    return str(int(nint(x * 10**9)))
for n in range(1, last + 1):
    errors = []
    for a, b in pairs:
        x = n * (size[a] - size[b])
        errors.append(abs(nint(x) - x) * 1200 / n)
    own = {{m: nint(n * size[m]) for m in odd}}
    steady = all(nint(n * (size[a] - size[b])) == own[a] - own[b] for a, b in every)
    rms = sqrt(sum(e * e for e in errors) / len(errors))
    print(n, shown(max(errors)), shown(rms), int(steady))
)";

/// "12.345" with 9 digits after the point as a count of billionths.
std::string billionths(std::string decimal) {
    std::erase(decimal, '.');
    const auto first = decimal.find_first_not_of('0');
    return first == std::string::npos ? "0" : decimal.substr(first);
}

} // namespace

TEST_CASE("Odd-limit tables over 1 to 1000 agree with mpmath to nine digits") {
    for (const int limit : {5, 15}) {
        const auto out =
            support::run_mpmath(fmt::format(fmt::runtime(odd_limit_script), limit, 1000));
        if (!out)
            SECTIO_SKIP("mpmath is not installed");
        const auto lines = support::lines_of(*out);
        REQUIRE(lines.size() == 1000);
        const ErrorTable table(odd_limit_targets(static_cast<unsigned>(limit)));
        for (const std::string& line : lines) {
            std::istringstream in(line);
            std::int64_t division = 0;
            std::string largest, rms;
            bool consistent = false;
            in >> division >> largest >> rms >> consistent;
            const ErrorRow row = table.row(division);
            CAPTURE(limit, division);
            CHECK(billionths(row.max_error_cents.decimal(9)) == largest);
            CHECK(billionths(row.rms_error_cents.decimal(9)) == rms);
            CHECK(row.consistent == consistent);
        }
    }
}

TEST_CASE("Divisions of the twelfth, and errors of primes, agree with mpmath") {
    const auto out = support::run_mpmath(R"(
from mpmath import mp, mpf, log, nint, sqrt
mp.dps = 50
for n in range(1, 1001):
    errors = []
    for p in (2, 5, 7, 11):
        x = n * log(mpf(p), 3)
        errors.append(abs(nint(x) - x) / n * 1200 * log(mpf(3), 2))
    print(n, int(nint(max(errors) * 10**9)), int(nint(sqrt(sum(e * e for e in errors) / 4) * 10**9)))
)");
    if (!out)
        SECTIO_SKIP("mpmath is not installed");
    const ErrorTable table(prime_targets(11), interval("3/1"));
    const auto lines = support::lines_of(*out);
    REQUIRE(lines.size() == 1000);
    for (const std::string& line : lines) {
        std::istringstream in(line);
        std::int64_t division = 0;
        std::string largest, rms;
        in >> division >> largest >> rms;
        const ErrorRow row = table.row(division);
        CAPTURE(division);
        CHECK(billionths(row.max_error_cents.decimal(9)) == largest);
        CHECK(billionths(row.rms_error_cents.decimal(9)) == rms);
    }
}

TEST_CASE("Records of the 15-odd-limit over 1 to 20000 agree with mpmath's errors") {
    const auto out = support::run_mpmath(R"(
from mpmath import mp, mpf, log, nint
from math import gcd
mp.dps = 40
odd = range(1, 16, 2)
unit = 1 << 100
sizes = [int(nint(log(mpf(a) / b, 2) * unit)) for a in odd for b in odd if a > b and gcd(a, b) == 1]
best = {"max": None, "rms": None}
for n in range(1, 20001):
    errors = []
    for s in sizes:
        x = n * s % unit
        errors.append(min(x, unit - x))
    found = {"max": mpf(max(errors)) / n, "rms": mpf(sum(e * e for e in errors)) / (n * n)}
    for measure in found:
        # What differs by less than the sizes' own rounding is a tie.
        if best[measure] is None or found[measure] < best[measure] * (1 - mpf(10) ** -20):
            best[measure] = found[measure]
            print(measure, n)
)");
    if (!out)
        SECTIO_SKIP("mpmath is not installed");
    std::map<std::string, std::vector<std::int64_t>> expected;
    for (const std::string& line : support::lines_of(*out)) {
        std::istringstream in(line);
        std::string measure;
        std::int64_t division = 0;
        in >> measure >> division;
        expected[measure].push_back(division);
    }
    const ErrorTable table(odd_limit_targets(15));
    CHECK(table.records(ErrorKind::max, {1, 20'000}) == expected["max"]);
    CHECK(table.records(ErrorKind::rms, {1, 20'000}) == expected["rms"]);
}

namespace {

/// An interval as we write it, and its size in octaves as mpmath does.
struct Spelled {
    std::string ours, octaves;
};

Spelled ratio_of(std::uint64_t above, std::uint64_t below) {
    return {fmt::format("{}/{}", above, below), fmt::format("log(mpf({})/{},2)", above, below)};
}

/// Periods of all kinds, commas among them that doubles cannot measure.
const std::vector<Spelled> odd_periods{
    {"2/1", "mpf(1)"},
    {"3/1", "log(mpf(3),2)"},
    {"3/2", "log(mpf(3)/2,2)"},
    {"81/80", "log(mpf(81)/80,2)"},
    {"1234.5c", "mpf('1234.5')/1200"},
    {"7of13(5/1)", "7*log(mpf(5),2)/13"},
    {"3^53/2^84", "53*log(mpf(3),2)-84"},
    {"3^225644606/2^357638239", "225644606*log(mpf(3),2)-357638239"},
    {"2^4000", "mpf(4000)"},
};

Spelled random_target(std::mt19937_64& random) {
    switch (random() % 4) {
    case 0:
        return ratio_of(random() % 100 + 1, random() % 100 + 1);
    case 1:
        return ratio_of(random() | 1, random() | 1);
    case 2: {
        const auto cents = fmt::format("{}.{:04}7", random() % 5000, random() % 10'000);
        return {cents + "c", "mpf('" + cents + "')/1200"};
    }
    default: {
        const auto fifths = 3000 + random() % 9;
        return {fmt::format("{} x 3/2 - 1754 x 2/1 + 5/4", fifths),
                fmt::format("({}*log(mpf(3)/2,2)-1754+log(mpf(5)/4,2))", fifths)};
    }
    }
}

} // namespace

TEST_CASE("Random targets, periods, divisions and digits agree with mpmath") {
    std::mt19937_64 random(23);
    std::string script = R"(
from mpmath import mp, mpf, log, nint, sqrt
mp.dps = 400
def row(targets, period, n, digits):
    errors = []
    for t in targets:
        x = n * t / period
        errors.append(abs(x - nint(x)))
    unit = mpf(10) ** digits * 1200 * period / n
    print(int(nint(max(errors) * unit)), int(nint(sqrt(sum(e * e for e in errors) / len(errors)) * unit)),
          int(nint(max(errors) * mpf(10) ** digits)))
)";
    struct Asked {
        Targets targets;
        Interval period;
        std::int64_t division;
        int digits;
    };
    std::vector<Asked> asked;
    for (int i = 0; i < 400; ++i) {
        const Spelled& period = odd_periods[random() % odd_periods.size()];
        Asked one{{},
                  interval(period.ours),
                  static_cast<std::int64_t>(random() % 5000 + 1),
                  static_cast<int>(random() % 25)};
        std::string sizes;
        for (std::size_t count = random() % 4 + 1; count > 0; --count) {
            const Spelled target = random_target(random);
            if (exact_quotient(interval(target.ours), one.period))
                continue; // may be half a step off exactly, which nint and we may round apart
            one.targets.intervals.push_back(interval(target.ours));
            sizes += target.octaves + ",";
        }
        if (one.targets.intervals.empty())
            continue;
        script +=
            fmt::format("row([{}], {}, {}, {})\n", sizes, period.octaves, one.division, one.digits);
        asked.push_back(std::move(one));
    }
    const auto out = support::run_mpmath(script);
    if (!out)
        SECTIO_SKIP("mpmath is not installed");
    const auto lines = support::lines_of(*out);
    REQUIRE(lines.size() == asked.size());
    for (std::size_t i = 0; i < asked.size(); ++i) {
        std::istringstream in(lines[i]);
        std::string largest, rms, steps;
        in >> largest >> rms >> steps;
        const Asked& one = asked[i];
        const ErrorRow row = ErrorTable(one.targets, one.period).row(one.division);
        CAPTURE(one.targets.intervals, one.period, one.division, one.digits);
        CHECK(row.max_error_cents.decimal(one.digits)
              == decimal_text(Integer(largest), one.digits));
        CHECK(row.rms_error_cents.decimal(one.digits) == decimal_text(Integer(rms), one.digits));
        CHECK(row.max_error_steps.decimal(one.digits) == decimal_text(Integer(steps), one.digits));
    }
}
