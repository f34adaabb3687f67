// Thousands of digits against PARI/GP and mpmath, run here; skipped where they are not installed.

#include <fmt/format.h>
#include <support/intervals.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

#include <random>

using sectio::Integer;
using sectio::Interval;
using support::interval;

namespace {

/// gp: 1200 log2 of the expression `ratio`, times 10^digits, rounded.
std::string gp_cents(const std::string& ratio, int digits) {
    return fmt::format("print(round(10^{1}*1200*log({0})/log(2)))\n", ratio, digits);
}

std::string gp_precision(int digits) {
    return fmt::format("default(realprecision,{})\n", digits);
}

} // namespace

TEST_CASE("53 fifths less 84 octaves to a thousand digits, against PARI/GP") {
    const auto out = support::run_gp(gp_precision(1050) + gp_cents("3^53/2^84", 1000));
    if (!out)
        SECTIO_SKIP("gp (PARI/GP) is not installed");
    const Interval comma = interval("3^53/2^84");
    CHECK(comma == interval("53 x 3/2 - 31 x 2/1"));
    CHECK(comma.cents(1000) == sectio::decimal_text(Integer(support::lines_of(*out).at(0)), 1000));
    CHECK(comma.cents(3) == "3.615"); // Mercator's comma: Barbour 1951, 3.6 (from memory)
    CHECK(comma < interval("1of53"));
}

TEST_CASE("53 fifths less 84 octaves to a thousand digits, against mpmath") {
    const auto out = support::run_mpmath("import mpmath\n"
                                         "mpmath.mp.dps = 1050\n"
                                         "c = 1200 * mpmath.log(mpmath.mpf(3)**53 / 2**84, 2)\n"
                                         "print(int(mpmath.nint(c * mpmath.mpf(10)**1000)))\n");
    if (!out)
        SECTIO_SKIP("python3-mpmath is not installed");
    CHECK(interval("3^53/2^84").cents(1000)
          == sectio::decimal_text(Integer(support::lines_of(*out).at(0)), 1000));
}

TEST_CASE("Random intervals to ten thousand digits, against PARI/GP") {
    std::mt19937_64 random(53);
    std::string script = gp_precision(10'080);
    std::vector<Interval> asked;
    for (int i = 0; i < 3; ++i) {
        const std::uint64_t above = random() | 1, below = random() | 1;
        asked.push_back(Interval::from_ratio(above, below));
        script += gp_cents(fmt::format("{}/{}", above, below), 10'000);
    }
    asked.push_back(interval("7of13(3)"));
    script += gp_cents("3^(7/13)", 10'000);
    asked.push_back(interval("(80/81)^(1/4)"));
    script += gp_cents("(80/81)^(1/4)", 10'000);
    const auto out = support::run_gp(script);
    if (!out)
        SECTIO_SKIP("gp (PARI/GP) is not installed");
    const auto lines = support::lines_of(*out);
    REQUIRE(lines.size() == asked.size());
    for (std::size_t i = 0; i < asked.size(); ++i)
        CHECK(asked[i].cents(10'000) == sectio::decimal_text(Integer(lines[i]), 10'000));
}

TEST_CASE("Random intervals of every kind to sixty digits, against PARI/GP") {
    std::mt19937 random(12);
    const auto below = [&random](unsigned n) { return static_cast<unsigned>(random() % n) + 1; };
    std::string script = gp_precision(120);
    std::vector<Interval> asked;
    for (int i = 0; i < 200; ++i) {
        const unsigned a = below(100'000), b = below(100'000), n = below(30), m = below(400);
        asked.push_back(interval(fmt::format("{} x ({}/{})^(1/{}) - {}of53", m % 17, a, b, n, m)));
        script += gp_cents(fmt::format("({}/{})^({}/{})/2^({}/53)", a, b, m % 17, n, m), 60);
    }
    const auto out = support::run_gp(script);
    if (!out)
        SECTIO_SKIP("gp (PARI/GP) is not installed");
    const auto lines = support::lines_of(*out);
    REQUIRE(lines.size() == asked.size());
    for (std::size_t i = 0; i < asked.size(); ++i) {
        INFO(sectio::to_expression(asked[i]));
        CHECK(asked[i].cents(60) == sectio::decimal_text(Integer(lines[i]), 60));
    }
}

TEST_CASE("Frequencies of 12 equal steps, against PARI/GP") {
    std::string script = gp_precision(80);
    for (int key = 0; key < 128; ++key)
        script += fmt::format("print(round(10^30*440*2^(({}-69)/12)))\n", key);
    const auto out = support::run_gp(script);
    if (!out)
        SECTIO_SKIP("gp (PARI/GP) is not installed");
    const auto lines = support::lines_of(*out);
    REQUIRE(lines.size() == 128);
    for (int key = 0; key < 128; ++key)
        CHECK(sectio::pitch_of_key(key).hertz(30)
              == sectio::decimal_text(Integer(lines[static_cast<std::size_t>(key)]), 30));
}
