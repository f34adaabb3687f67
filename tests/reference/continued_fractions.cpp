// Continued fractions against published sequences and PARI/GP.

#include "support/intervals.hpp"
#include "support/paths.hpp"
#include "support/process.hpp"

#include <sectio/approx/continued_fraction.hpp>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <sstream>

using namespace sectio;
using support::interval;

namespace {

std::vector<Integer> numbers_of(std::string text) {
    for (char& c : text)
        if (c == '[' || c == ']' || c == ',')
            c = ' ';
    std::istringstream in(text);
    std::vector<Integer> numbers;
    for (std::string word; in >> word;)
        numbers.emplace_back(word);
    return numbers;
}

} // namespace

TEST_CASE("Quotients and convergents of log2 3 are those of the encyclopedia of sequences") {
    // OEIS A028507 (quotients), A005663 (numerators), A005664 (denominators), oeis.org.
    const auto fraction = continued_fraction(interval("3/1"), interval("2/1"), 22);
    CHECK(fraction.quotients == std::vector<Integer>{1, 1, 1, 2,  2, 3, 1, 5, 2, 23, 2,
                                                     2, 1, 1, 55, 1, 4, 3, 1, 1, 15, 1});
    const char* denominators[] = {"1",          "1",         "2",         "5",         "12",
                                  "41",         "53",        "306",       "665",       "15601",
                                  "31867",      "79335",     "111202",    "190537",    "10590737",
                                  "10781274",   "53715833",  "171928773", "225644606", "397573379",
                                  "6189245291", "6586818670"};
    const char* numerators[] = {"1",          "2",          "3",         "8",         "19",
                                "65",         "84",         "485",       "1054",      "24727",
                                "50508",      "125743",     "176251",    "301994",    "16785921",
                                "17087915",   "85137581",   "272500658", "357638239", "630138897",
                                "9809721694", "10439860591"};
    const auto fractions = convergents(fraction);
    REQUIRE(fractions.size() == 22);
    for (std::size_t i = 0; i < fractions.size(); ++i) {
        CHECK(fractions[i].divisions == Integer(denominators[i]));
        CHECK(fractions[i].steps == Integer(numerators[i]));
    }
}

TEST_CASE("Ten thousand quotients of the fifth in octaves agree with PARI/GP") {
    // 11 000 digits; the last of PARI's quotients are uncertain, ours are all certain.
    const auto out = support::run_gp("default(realprecision, 11000);\n"
                                     "print(contfrac(log(3/2)/log(2))[1..10000])\n");
    if (!out)
        SECTIO_SKIP("PARI/GP is not installed");
    const auto expected = numbers_of(*out);
    REQUIRE(expected.size() == 10'000);
    CHECK(continued_fraction(interval("3/2"), interval("2/1"), 10'000).quotients == expected);
}

TEST_CASE("Continued fractions of other intervals and measures agree with PARI/GP") {
    // Each as we write it, and as PARI/GP writes its natural logarithm.
    const struct {
        const char *ours, *pari, *measure, *pari_measure;
    } cases[] = {
        {"5/4", "log(5/4)", "2/1", "log(2)"},
        {"7/4", "log(7/4)", "3/2", "log(3/2)"},
        {"81/80", "log(81/80)", "2/1", "log(2)"},
        {"2/1", "log(2)", "81/80", "log(81/80)"},
        {"5^(1/4)", "log(5)/4", "3/1", "log(3)"},
        {"701.955c", "701955/1200000*log(2)", "3/2", "log(3/2)"},
        {"-5/4", "-log(5/4)", "2/1", "log(2)"},
        {"3^53/2^84", "log(3^53/2^84)", "2/1", "log(2)"},
        {"31/29", "log(31/29)", "5^(1/3)", "log(5)/3"},
        {"7of12 + (81/80)^(1/1000000000000)", "7/12*log(2)+log(81/80)/10^12", "2/1", "log(2)"},
    };
    std::string script = "default(realprecision, 700);\n";
    for (const auto& c : cases)
        script += fmt::format("print(contfrac(({})/({}))[1..500])\n", c.pari, c.pari_measure);
    const auto out = support::run_gp(script);
    if (!out)
        SECTIO_SKIP("PARI/GP is not installed");
    const auto lines = support::lines_of(*out);
    REQUIRE(lines.size() == std::size(cases));
    for (std::size_t i = 0; i < lines.size(); ++i) {
        CAPTURE(cases[i].ours, cases[i].measure);
        CHECK(continued_fraction(interval(cases[i].ours), interval(cases[i].measure), 500).quotients
              == numbers_of(lines[i]));
    }
}
