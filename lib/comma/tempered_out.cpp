#include <sectio/approx/messages.hpp>
#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/comma/messages.hpp>
#include <sectio/comma/tempered_out.hpp>
#include <sectio/division/messages.hpp>
#include <sectio/division/val.hpp>
#include <sectio/interval/prime_list.hpp>

#include <fplll.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace sectio {

namespace {

/// round(1024 log2 p) for the primes 2 … 31.
constexpr LongExponents weights{1024, 1623, 2378, 2875, 3542, 3789, 4186, 4350, 4632, 4975, 5073};

/// log2 of the same primes, rounded to doubles.
constexpr std::array<double, most_primes> octaves{
    1.0,
    1.584962500721156,
    2.321928094887362,
    2.807354922057604,
    3.4594316186372973,
    3.700439718141092,
    4.08746284125034,
    4.247927513443585,
    4.523561956057013,
    4.857980995127572,
    4.954196310386876,
};

bool falls(const LongExponents& exponents) {
    double size = 0, magnitude = 0;
    for (std::size_t i = 0; i < most_primes; ++i) {
        const double part = static_cast<double>(exponents[i]) * octaves[i];
        size += part;
        magnitude += std::fabs(part);
    }
    // Each part is off by 2^-52 of itself at most, and eleven additions round by 2^-53 of the sum
    // of magnitudes.
    if (std::fabs(size) > magnitude * 0x1p-49)
        return size < 0;
    return interval_of(exponents) < Interval();
}

using Matrix = fplll::ZZ_mat<mpz_t>;

/// Places of the primes in LongExponents.
using Places = std::vector<std::size_t>;

/// The rows (weighted unit vector | 2^shift v) reduced.
Matrix reduced_rows(const LongExponents& map, const Places& places, unsigned shift) {
    const int primes = static_cast<int>(places.size());
    Matrix rows(primes, primes + 1);
    for (int i = 0; i < primes; ++i) {
        const std::size_t place = places[static_cast<std::size_t>(i)];
        rows[i][i] = static_cast<long>(weights[place]);
        rows[i][primes] = static_cast<long>(map[place]);
        rows[i][primes].mul_2si(rows[i][primes], static_cast<long>(shift));
    }
    const int status = fplll::lll_reduction(rows, 0.99, 0.51);
    if (status != fplll::RED_SUCCESS)
        throw error(message::reduction_failed, fplll::get_red_status_str(status), {});
    return rows;
}

LongExponents exponents_in(Matrix& rows, int row, const Places& places) {
    LongExponents exponents{};
    for (std::size_t i = 0; i < places.size(); ++i)
        exponents[places[i]] = rows[row][static_cast<int>(i)].get_si() / weights[places[i]];
    if (falls(exponents))
        for (std::int64_t& e : exponents)
            e = -e;
    return exponents;
}

/// Rows of the kernel: those with nothing in the last place.
std::vector<LongExponents> kernel_rows(Matrix& rows, const Places& places) {
    const int primes = static_cast<int>(places.size());
    std::vector<LongExponents> basis;
    for (int row = 0; row < primes; ++row)
        if (rows[row][primes].sgn() == 0)
            basis.push_back(exponents_in(rows, row, places));
    return basis;
}

Places places_of(unsigned prime_limit, const std::vector<unsigned>& only) {
    const auto primes = primes_up_to(prime_limit);
    Places places;
    for (std::size_t i = 0; i < primes.size(); ++i)
        if (only.empty() || std::find(only.begin(), only.end(), primes[i]) != only.end())
            places.push_back(i);
    return places;
}

} // namespace

Interval interval_of(const LongExponents& exponents) {
    static const auto primes = primes_up_to(largest_prime_limit);
    Interval sum;
    for (std::size_t i = 0; i < most_primes; ++i)
        if (exponents[i] != 0)
            sum += Integer(exponents[i]) * Interval::from_ratio(primes[i]);
    return sum;
}

LongExponents small_val(const EqualDivision& division) {
    static const auto primes = [] {
        std::vector<Interval> intervals;
        for (const unsigned p : primes_up_to(largest_prime_limit))
            intervals.push_back(Interval::from_ratio(p));
        return intervals;
    }();
    if (division.steps() > limits::division_steps)
        throw error(message::division_out_of_range, division.steps().str(), {},
                    limits::division_steps);
    LongExponents map;
    for (std::size_t i = 0; i < most_primes; ++i) {
        const Integer step = division.nearest(primes[i]);
        if (bit_length(step) > 40)
            throw error(message::period_too_small, to_expression(division.period()), {});
        map[i] = step.convert_to<std::int64_t>();
    }
    return map;
}

std::vector<LongExponents> tempered_out_basis(const EqualDivision& division, unsigned prime_limit,
                                              const std::vector<unsigned>& only) {
    if (prime_limit < 2 || prime_limit > largest_prime_limit)
        throw error(message::prime_limit_out_of_range, fmt::to_string(prime_limit), {},
                    largest_prime_limit);
    const Places places = places_of(prime_limit, only);
    const LongExponents map = small_val(division);
    const bool all_tempered_out =
        std::all_of(places.begin(), places.end(), [&](std::size_t i) { return map[i] == 0; });
    const std::size_t dimension = all_tempered_out ? places.size() : places.size() - 1;
    for (unsigned shift = 20;; shift += 10) {
        Matrix rows = reduced_rows(map, places, shift);
        auto basis = kernel_rows(rows, places);
        if (basis.size() == dimension)
            return basis;
    }
}

} // namespace sectio
