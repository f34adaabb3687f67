// Certified quotients beside PARI/GP's contfrac, which certifies nothing, logarithms included in
// both; and the simplest ratios near an interval.

#include <sectio/approx/continued_fraction.hpp>
#include <sectio/approx/near_ratios.hpp>

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <cstdio>
#include <cstdlib>

using namespace sectio;

namespace {

void quotients_certified(benchmark::State& state) {
    const Interval fifth = Interval::from_ratio(3, 2);
    const auto count = static_cast<std::size_t>(state.range(0));
    for (auto _ : state)
        benchmark::DoNotOptimize(continued_fraction(fifth, Interval::octave(), count));
}

/// Seconds that PARI/GP says it takes for one fraction of so many quotients, or less than 0 where
/// it is not installed. It is timed inside gp, its start not counted.
double pari_seconds(std::int64_t count) {
    // 1.0306 decimal digits a quotient (Lévy's constant), and some more.
    const auto digits = static_cast<std::int64_t>(1.0306 * static_cast<double>(count)) + 60;
    const std::int64_t repeats = std::max<std::int64_t>(1, 100'000 / count);
    const std::string command =
        fmt::format("echo 'default(realprecision, {}); c = contfrac(log(3/2)/log(2)); gettime(); "
                    "for(i = 1, {}, c = contfrac(log(3/2)/log(2))); t = gettime(); "
                    "printf(\"%.9f\", if(#c < {}, -1, t/1000./{}))' | gp -q -f -s 512M 2>/dev/null",
                    digits, repeats, count, repeats);
    FILE* gp = popen(command.c_str(), "r");
    char line[4096] = "";
    const bool read = gp != nullptr && std::fgets(line, sizeof line, gp) != nullptr;
    if (gp != nullptr)
        pclose(gp);
    return read ? std::atof(line) : -1;
}

void quotients_pari(benchmark::State& state) {
    for (auto _ : state) {
        const double seconds = pari_seconds(state.range(0));
        if (seconds < 0)
            state.SkipWithError("PARI/GP is not installed");
        state.SetIterationTime(std::max(seconds, 1e-9));
    }
}

void simplest_ratios(benchmark::State& state) {
    const Interval fifth = Interval::from_cents(Rational(702));
    NearBounds bounds;
    bounds.most = static_cast<std::size_t>(state.range(0));
    bounds.max_term = Integer(1) << 40;
    for (auto _ : state)
        benchmark::DoNotOptimize(near_ratios(fifth, Interval::from_cents(Rational(5)), bounds));
    state.SetComplexityN(state.range(0));
}

} // namespace

BENCHMARK(quotients_certified)
    ->RangeMultiplier(10)
    ->Range(100, 100'000)
    ->Unit(benchmark::kMillisecond);
BENCHMARK(quotients_pari)
    ->RangeMultiplier(10)
    ->Range(100, 100'000)
    ->UseManualTime()
    ->Iterations(3)
    ->Unit(benchmark::kMillisecond);
BENCHMARK(simplest_ratios)
    ->RangeMultiplier(10)
    ->Range(1, 1000)
    ->Unit(benchmark::kMicrosecond)
    ->Complexity();
