// Error tables beside a plain vectorised loop of doubles over the same work, which certifies
// nothing: maximum and RMS error of every division, and the records of both.

#include <sectio/division/error_table.hpp>

#include <benchmark/benchmark.h>

#include <cmath>

using namespace sectio;

namespace {

constexpr int smallest = 1000, largest = 1'000'000; // three decades

/// Records of the maximum and the RMS error by doubles alone.
std::size_t plain_records(const std::vector<double>& sizes, int to) {
    constexpr int block = 512;
    static double steps[block], worst[block], squares[block];
    double best_max = 1, best_rms = 1;
    std::size_t records = 0;
    for (int first = 1; first <= to; first += block) {
        for (int i = 0; i < block; ++i) {
            steps[i] = first + i;
            worst[i] = squares[i] = 0;
        }
        for (const double size : sizes)
            for (int i = 0; i < block; ++i) {
                const double x = steps[i] * size, error = x - ((x + 0x1.8p52) - 0x1.8p52);
                const double absolute = std::fabs(error);
                worst[i] = worst[i] < absolute ? absolute : worst[i];
                squares[i] += error * error;
            }
        for (int i = 0; i < block && first + i <= to; ++i) {
            const double max = worst[i] / steps[i];
            const double rms = std::sqrt(squares[i] / static_cast<double>(sizes.size())) / steps[i];
            records += (max < best_max) + (rms < best_rms);
            best_max = std::min(best_max, max);
            best_rms = std::min(best_rms, rms);
        }
    }
    return records;
}

void odd_limit_15_plain(benchmark::State& state) {
    std::vector<double> sizes;
    for (const Interval& target : odd_limit_targets(15).intervals)
        sizes.push_back(target.estimate().value);
    for (auto _ : state)
        benchmark::DoNotOptimize(plain_records(sizes, static_cast<int>(state.range(0))));
    state.SetComplexityN(state.range(0));
}

/// The same loop with what we know besides: a ratio and its octave complement err alike.
void odd_limit_15_plain_halved(benchmark::State& state) {
    std::vector<double> sizes;
    for (const Interval& target : odd_limit_targets(15).intervals)
        if (target.estimate().value < 0.5)
            sizes.push_back(target.estimate().value);
    for (auto _ : state)
        benchmark::DoNotOptimize(plain_records(sizes, static_cast<int>(state.range(0))));
    state.SetComplexityN(state.range(0));
}

void odd_limit_15_certified(benchmark::State& state) {
    for (auto _ : state) {
        const ErrorTable table(odd_limit_targets(15));
        const DivisionRange range{1, state.range(0)};
        benchmark::DoNotOptimize(table.records(range));
    }
    state.SetComplexityN(state.range(0));
}

void ten_best_certified(benchmark::State& state) {
    const ErrorTable table(odd_limit_targets(15));
    for (auto _ : state)
        benchmark::DoNotOptimize(table.best(ErrorKind::rms, {1, state.range(0)}, 10));
    state.SetComplexityN(state.range(0));
}

void rows_certified(benchmark::State& state) {
    const ErrorTable table(odd_limit_targets(15));
    for (auto _ : state)
        for (std::int64_t n = 1; n <= 1000; ++n)
            benchmark::DoNotOptimize(table.row(n).max_error_cents.decimal(3));
}

} // namespace

BENCHMARK(odd_limit_15_plain)->RangeMultiplier(10)->Range(smallest, largest)->Complexity();
BENCHMARK(odd_limit_15_plain_halved)->RangeMultiplier(10)->Range(smallest, largest)->Complexity();
BENCHMARK(odd_limit_15_certified)->RangeMultiplier(10)->Range(smallest, largest)->Complexity();
BENCHMARK(ten_best_certified)->RangeMultiplier(10)->Range(smallest, largest)->Complexity();
BENCHMARK(rows_certified)->Unit(benchmark::kMillisecond);
