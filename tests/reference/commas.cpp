// Commas against published counts and tables, and against PARI/GP by another algorithm.

#include "support/commas.hpp"

#include "support/intervals.hpp"
#include "support/paths.hpp"
#include "support/process.hpp"

#include <sectio/comma/commas.hpp>
#include <sectio/comma/tempered_out.hpp>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>

using namespace sectio;
using support::interval;
using support::window;

namespace {

bool is_superparticular(const Exponents& e) {
    return numerator_of(e) - denominator_of(e) == 1;
}

} // namespace

TEST_CASE("Superparticular ratios of a prime limit are as many as Lehmer counted") {
    // D. H. Lehmer, "On a problem of Størmer", Illinois J. Math. 8 (1964); OEIS A002071 (how many
    // pairs) and A002072 (the smaller number of the largest pair). There are no others at all.
    const struct {
        unsigned limit;
        std::size_t count;
        long largest;
    } published[] = {{2, 1, 1},      {3, 4, 8},         {5, 10, 80},        {7, 23, 4374},
                     {11, 40, 9800}, {13, 68, 123'200}, {17, 108, 336'140}, {19, 167, 11'859'210}};
    for (const auto& p : published) {
        // (n + 1)/n is above 2 cents for n <= 865 and below for n >= 866; the octave itself is the
        // pair 1, 2.
        CommaBounds coarse = window(p.limit, "2c", "1201c"), fine = window(p.limit, "0c", "2c");
        coarse.max_term = 866;
        fine.max_term = p.largest + 1;
        std::size_t count = 0;
        Integer largest = 0;
        for (const CommaBounds& bounds : {coarse, fine})
            for (const Exponents& e : commas(bounds))
                if (is_superparticular(e)) {
                    ++count;
                    largest = std::max(largest, denominator_of(e));
                }
        CAPTURE(p.limit);
        CHECK(count == p.count);
        CHECK(largest == p.largest);
    }
}

TEST_CASE("Commas of the tables are found with their published sizes") {
    // H. von Helmholtz, A. J. Ellis, On the Sensations of Tone (1885), appendix XX, and "Comma
    // (music)", Wikipedia, table of commas: ratio, size in cents to two places.
    const struct {
        const char *ratio, *cents;
    } published[] = {{"32805/32768", "1.95"},    {"225/224", "7.71"},    {"15625/15552", "8.11"},
                     {"99/98", "17.58"},         {"2048/2025", "19.55"}, {"81/80", "21.51"},
                     {"531441/524288", "23.46"}, {"64/63", "27.26"},     {"128/125", "41.06"},
                     {"33/32", "53.27"},         {"648/625", "62.57"}};
    CommaBounds bounds = window(11, "0c", "63c");
    bounds.max_term = 531'441;
    std::vector<Interval> found;
    for (const Exponents& e : commas(bounds))
        found.push_back(interval_of(e));
    for (const auto& p : published) {
        CAPTURE(p.ratio);
        CHECK(std::binary_search(found.begin(), found.end(), interval(p.ratio)));
        CHECK(interval(p.ratio).cents(2) == p.cents);
    }
}

namespace {

/// Walks all exponents of the odd primes in a box and chooses the one exponent of 2 that leaves a
/// ratio from 1/1 up to an octave; sizes by logarithms of 38 digits.
constexpr const char* box_script = R"(
count(P, product, term, cents) = {{
  my(T = if(product, 2 * sqrtint(product), term), odd = P[2..#P], n = 0, total = 0);
  my(box = vector(#odd, i, my(k = logint(T, odd[i])); [-k, k]));
  forvec(e = box,
    my(r = prod(i = 1, #odd, odd[i]^e[i]));
    my(k = -floor(log(r)/log(2) + 1e-30), c = r * 2^k);
    if(c > 1 && 1200*log(c)/log(2) < cents,
      if((!product || numerator(c)*denominator(c) <= product)
         && (!term || numerator(c) <= term),
        n++; total += numerator(c))));
  print(n, " ", total)
}};
)";

} // namespace

TEST_CASE("Commas in four bounds are as many as PARI/GP finds by walking all exponents") {
    const struct {
        unsigned limit;
        const char *primes, *below;
        unsigned product_bits, term_bits; ///< 0: no such bound
    } cases[] = {{5, "[2,3,5]", "30c", 200, 0},
                 {7, "[2,3,5,7]", "10c", 0, 40},
                 {11, "[2,3,5,7,11]", "25c", 44, 0},
                 {13, "[2,3,5,7,11,13]", "10c", 30, 0}};
    std::string script = fmt::format(fmt::runtime(box_script));
    for (const auto& c : cases)
        script += fmt::format("count({}, {}, {}, {})\n", c.primes,
                              c.product_bits ? fmt::format("2^{}", c.product_bits) : "0",
                              c.term_bits ? fmt::format("2^{}", c.term_bits) : "0",
                              std::string(c.below).substr(0, std::string(c.below).size() - 1));
    const auto out = support::run_gp(script);
    if (!out)
        SECTIO_SKIP("PARI/GP is not installed");
    const auto lines = support::lines_of(*out);
    REQUIRE(lines.size() == std::size(cases));
    for (std::size_t i = 0; i < lines.size(); ++i) {
        CommaBounds bounds = window(cases[i].limit, "0c", cases[i].below);
        if (cases[i].product_bits)
            bounds.max_product = Integer(1) << cases[i].product_bits;
        if (cases[i].term_bits)
            bounds.max_term = Integer(1) << cases[i].term_bits;
        Integer total = 0;
        const auto found = commas(bounds);
        for (const Exponents& e : found)
            total += numerator_of(e);
        CAPTURE(cases[i].primes, cases[i].below);
        CHECK(fmt::format("{} {}", found.size(), total.str()) == lines[i]);
    }
}

TEST_CASE("PARI/GP finds our bases reduced, and spanning what it calls the kernel") {
    std::string script =
        "reduced(B) = {my(n = #B, G, mu, s); G = vector(n); mu = matid(n);\n"
        "  for(i = 1, n, G[i] = B[,i];\n"
        "    for(j = 1, i - 1, mu[i,j] = (B[,i]~*G[j])/(G[j]~*G[j]); G[i] -= mu[i,j]*G[j];\n"
        "      if(abs(mu[i,j]) > 51/100, return(0)));\n"
        "    if(i > 1, if(G[i]~*G[i] < (99/100 - mu[i,i-1]^2)*(G[i-1]~*G[i-1]), return(0)))); 1};\n"
        "weights = matdiagonal(vector(11, i, round(1024*log(prime(i))/log(2))));\n";
    for (const int steps : {5, 12, 53, 311, 4096, 1'000'003}) {
        const EqualDivision division(steps);
        std::string rows;
        for (const LongExponents& row : tempered_out_basis(division, 31))
            rows += (rows.empty() ? "" : ";") + fmt::format("{}", fmt::join(row, ","));
        script += fmt::format(
            "B = mattranspose([{}]); v = vector(11, i, round({}*log(prime(i))/log(2)));\n"
            "print(v*B == 0, reduced(weights*B), mathnf(B) == mathnf(matkerint(Mat(v))))\n",
            rows, steps);
    }
    const auto out = support::run_gp(script);
    if (!out)
        SECTIO_SKIP("PARI/GP is not installed");
    for (const std::string& line : support::lines_of(*out))
        CHECK(line == "111");
    CHECK(support::lines_of(*out).size() == 6);
}
