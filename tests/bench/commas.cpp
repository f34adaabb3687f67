// Commas beside a plain enumeration: all numbers of the prime limit sorted, a window moved along
// them, pairs without a common divisor kept. And reduced bases beside fplll alone.

#include <sectio/comma/commas.hpp>
#include <sectio/comma/tempered_out.hpp>

#include <benchmark/benchmark.h>
#include <fplll.h>

#include <algorithm>
#include <cmath>
#include <numeric>

using namespace sectio;

namespace {

using Whole = std::uint64_t;

void add_multiples(Whole n, const Whole* prime, const Whole* end, Whole most,
                   std::vector<Whole>& out) {
    if (prime == end) {
        out.push_back(n);
        return;
    }
    for (;; n *= *prime) {
        add_multiples(n, prime + 1, end, most, out);
        if (n > most / *prime)
            return;
    }
}

struct PlainComma {
    double cents;
    Whole above, below;
};

/// All 13-limit commas below 10 cents with both terms up to `most`, by size.
std::vector<PlainComma> plain_commas(Whole most) {
    constexpr Whole primes[] = {2, 3, 5, 7, 11, 13};
    std::vector<Whole> numbers;
    add_multiples(1, std::begin(primes), std::end(primes), most, numbers);
    std::sort(numbers.begin(), numbers.end());
    const double widest = std::exp2(10.0 / 1200);
    std::vector<PlainComma> commas;
    for (std::size_t i = 0; i < numbers.size(); ++i)
        for (std::size_t j = i + 1;
             j < numbers.size()
             && static_cast<double>(numbers[j]) < widest * static_cast<double>(numbers[i]);
             ++j)
            if (std::gcd(numbers[i], numbers[j]) == 1)
                commas.push_back({1200
                                      * std::log2(static_cast<double>(numbers[j])
                                                  / static_cast<double>(numbers[i])),
                                  numbers[j], numbers[i]});
    std::sort(commas.begin(), commas.end(),
              [](const PlainComma& a, const PlainComma& b) { return a.cents < b.cents; });
    return commas;
}

void commas_plain(benchmark::State& state) {
    std::size_t found = 0;
    for (auto _ : state)
        found = plain_commas(Whole{1} << state.range(0)).size();
    state.counters["commas"] = static_cast<double>(found);
}

void commas_certified(benchmark::State& state) {
    CommaBounds bounds;
    bounds.max_term = Integer(1) << static_cast<unsigned>(state.range(0));
    std::size_t found = 0;
    for (auto _ : state)
        found = commas(bounds).size();
    state.counters["commas"] = static_cast<double>(found);
}

/// Time for one basis over the primes to 31, of 1000 divisions from range(0) on.
void bases_certified(benchmark::State& state) {
    for (auto _ : state)
        for (std::int64_t n = state.range(0); n < state.range(0) + 1000; ++n)
            benchmark::DoNotOptimize(tempered_out_basis(EqualDivision(n), 31));
    state.SetItemsProcessed(1000 * static_cast<std::int64_t>(state.iterations()));
}

/// The library's reduction of the same rows alone: no map of primes, no check, no answer made.
void bases_fplll_alone(benchmark::State& state) {
    constexpr int primes[] = {2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31};
    for (auto _ : state)
        for (std::int64_t n = state.range(0); n < state.range(0) + 1000; ++n) {
            fplll::ZZ_mat<mpz_t> rows(11, 12);
            for (int i = 0; i < 11; ++i) {
                rows[i][i] = std::lround(1024 * std::log2(primes[i]));
                rows[i][11] =
                    std::lround(static_cast<double>(n) * std::log2(primes[i])) * (1L << 20);
            }
            benchmark::DoNotOptimize(fplll::lll_reduction(rows, 0.99, 0.51));
        }
    state.SetItemsProcessed(1000 * static_cast<std::int64_t>(state.iterations()));
}

} // namespace

BENCHMARK(commas_plain)->DenseRange(10, 40, 10)->Unit(benchmark::kMillisecond);
BENCHMARK(commas_certified)->DenseRange(10, 40, 10)->Unit(benchmark::kMillisecond);
BENCHMARK(bases_certified)
    ->Arg(10)
    ->Arg(1000)
    ->Arg(100'000)
    ->Arg(9'999'000)
    ->Unit(benchmark::kMillisecond);
BENCHMARK(bases_fplll_alone)
    ->Arg(10)
    ->Arg(1000)
    ->Arg(100'000)
    ->Arg(9'999'000)
    ->Unit(benchmark::kMillisecond);
