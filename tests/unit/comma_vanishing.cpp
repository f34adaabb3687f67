// The lattice of vanishing commas and its reduced basis.

#include "support/errors.hpp"
#include "support/intervals.hpp"

#include <sectio/comma/tempered_out.hpp>
#include <sectio/division/val.hpp>

#include <catch2/catch.hpp>

#include <numeric>

using namespace sectio;
using support::interval;

namespace {

/// The determinant of a square matrix, by fraction-free elimination (Bareiss).
Integer determinant(std::vector<std::vector<Integer>> m) {
    Integer last = 1, sign = 1;
    for (std::size_t k = 0; k + 1 < m.size(); ++k) {
        std::size_t pivot = k;
        while (pivot < m.size() && m[pivot][k] == 0)
            ++pivot;
        if (pivot == m.size())
            return 0;
        if (pivot != k) {
            std::swap(m[pivot], m[k]);
            sign = -sign;
        }
        for (std::size_t i = k + 1; i < m.size(); ++i)
            for (std::size_t j = k + 1; j < m.size(); ++j)
                m[i][j] = (m[i][j] * m[k][k] - m[i][k] * m[k][j]) / last;
        last = m[k][k];
    }
    return sign * m.back().back();
}

/// The vector of minors that leave out one prime each. It is a multiple of the map of primes; the
/// rows are a basis of the whole kernel exactly where it is the map divided by its common divisor.
std::vector<Integer> minors(const std::vector<LongExponents>& basis, std::size_t primes) {
    std::vector<Integer> result;
    for (std::size_t left_out = 0; left_out < primes; ++left_out) {
        std::vector<std::vector<Integer>> square;
        for (const LongExponents& row : basis) {
            square.emplace_back();
            for (std::size_t i = 0; i < primes; ++i)
                if (i != left_out)
                    square.back().emplace_back(row[i]);
        }
        result.push_back(boost::multiprecision::abs(determinant(square)));
    }
    return result;
}

} // namespace

TEST_CASE("In 12 equal steps the 5-limit's vanishing commas come from 81/80 and 128/125") {
    std::vector<Interval> basis;
    for (const LongExponents& row : tempered_out_basis(EqualDivision(12), 5))
        basis.push_back(interval_of(row));
    CHECK(basis == std::vector{interval("81/80"), interval("128/125")});
}

TEST_CASE("Of 2 and 3 alone one comma vanishes, however long") {
    const auto basis = tempered_out_basis(EqualDivision(665), 3);
    REQUIRE(basis.size() == 1);
    CHECK(interval_of(basis.front()) == interval("665 x 3/2 - 389 x 2/1"));
    CHECK(tempered_out_basis(EqualDivision(9'999'991), 3).size() == 1);
    CHECK(tempered_out_basis(EqualDivision(12), 2).empty());
}

TEST_CASE("The basis spans the whole kernel of the map") {
    for (const unsigned limit : {3u, 5u, 7u, 13u, 31u})
        for (const int steps : {1, 2, 12, 53, 1000, 65'537, 10'000'000}) {
            const EqualDivision division(steps);
            const auto map = small_val(division);
            const auto basis = tempered_out_basis(division, limit);
            const Val primes(division, limit);
            const std::size_t size = primes.primes().size();
            CAPTURE(limit, steps);
            REQUIRE(basis.size() == size - 1);
            Integer common = 0;
            for (std::size_t i = 0; i < size; ++i)
                common = boost::multiprecision::gcd(common, Integer(map[i]));
            const auto found = minors(basis, size);
            for (std::size_t i = 0; i < size; ++i) {
                CHECK(Integer(map[i]) == primes.steps()[i]);
                CHECK(found[i] * common == boost::multiprecision::abs(Integer(map[i])));
            }
            for (const LongExponents& row : basis) {
                CHECK(std::inner_product(row.begin(), row.end(), map.begin(), std::int64_t{0})
                      == 0);
                CHECK(interval_of(row) > Interval());
            }
        }
}

TEST_CASE("Divisions of other periods have their own commas") {
    const EqualDivision division(13, interval("3/1"));
    for (const LongExponents& row : tempered_out_basis(division, 7)) {
        const auto map = small_val(division);
        CHECK(std::inner_product(row.begin(), row.end(), map.begin(), std::int64_t{0}) == 0);
    }
    // One step of a huge period: no prime has a step, so everything vanishes.
    CHECK(tempered_out_basis(EqualDivision(1, interval("2^100")), 5).size() == 3);
}

TEST_CASE("Divisions beyond the limits are refused") {
    const auto fault = [](const EqualDivision& division, unsigned limit) {
        return support::name_of(support::error_of([&] { tempered_out_basis(division, limit); }));
    };
    CHECK(fault(EqualDivision(10'000'001), 5) == "division_out_of_range");
    CHECK(fault(EqualDivision(12), 1) == "prime_limit_out_of_range");
    CHECK(fault(EqualDivision(12), 32) == "prime_limit_out_of_range");
    CHECK(fault(EqualDivision(10'000'000, interval("0.000001c")), 5) == "period_too_small");
}

TEST_CASE("The basis over a set of primes has these alone, and all that vanish") {
    const EqualDivision twelve(12);
    const auto basis = tempered_out_basis(twelve, 7, {2, 3, 7});
    REQUIRE(basis.size() == 2);
    for (const LongExponents& row : basis)
        CHECK(row[2] == 0); // of 5
    // 64/63 and the Pythagorean comma span it: the determinant of two rows in the coordinates of
    // the exponents of 3 and 7 is the same, up to its sign.
    const auto determinant = [](const std::vector<LongExponents>& rows) {
        return std::llabs(rows[0][1] * rows[1][3] - rows[0][3] * rows[1][1]);
    };
    CHECK(determinant(basis) == 12); // 64/63 = (-2, -1), 3^12/2^19 = (12, 0)
}
