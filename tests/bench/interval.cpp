// The exact engine beside plain MPFR in the same run. Run by hand:
//     build/tests/bench/benchmarks --benchmark_repetitions=5
//     --benchmark_report_aggregates_only=true
// The last of the sizes measures all in turn and reports their quotients to plain MPFR.

#include <sectio/division/division.hpp>
#include <sectio/interval/expression.hpp>

#include <benchmark/benchmark.h>
#include <mpfr.h>

#include <chrono>
#include <random>

namespace {

using sectio::Integer;
using sectio::Interval;

struct Terms {
    Integer above, below;
};

/// A thousand ratios with terms of 200 digits.
const std::vector<Terms>& terms() {
    static const std::vector<Terms> made = [] {
        std::mt19937_64 random(200);
        const auto number = [&random] {
            std::string digits(1, static_cast<char>('1' + random() % 9));
            while (digits.size() < 200)
                digits += static_cast<char>('0' + random() % 10);
            return Integer(digits);
        };
        std::vector<Terms> list;
        for (int i = 0; i < 1000; ++i)
            list.push_back({number(), number()});
        return list;
    }();
    return made;
}

const std::vector<Interval>& ratios() {
    static const std::vector<Interval> made = [] {
        std::vector<Interval> list;
        for (const Terms& t : terms())
            list.push_back(Interval::from_ratio(t.above, t.below));
        return list;
    }();
    return made;
}

constexpr int digits = 50;

void ours_cents() {
    for (const Interval& ratio : ratios())
        benchmark::DoNotOptimize(ratio.cents(digits));
}

void ours_from_terms() {
    for (const Terms& t : terms())
        benchmark::DoNotOptimize(Interval::from_ratio(t.above, t.below).cents(digits));
}

/// As one would write it by hand: 256 bits, no certificate that the last digit is right.
void plain_mpfr() {
    mpfr_t x, y;
    mpfr_inits2(256, x, y, static_cast<mpfr_ptr>(nullptr));
    char text[100];
    for (const Terms& t : terms()) {
        mpfr_set_z(x, t.above.backend().data(), MPFR_RNDN);
        mpfr_set_z(y, t.below.backend().data(), MPFR_RNDN);
        mpfr_div(x, x, y, MPFR_RNDN);
        mpfr_log2(x, x, MPFR_RNDN);
        mpfr_mul_ui(x, x, 1200, MPFR_RNDN);
        mpfr_snprintf(text, sizeof text, "%.50Rf", x);
        benchmark::DoNotOptimize(text);
    }
    mpfr_clears(x, y, static_cast<mpfr_ptr>(nullptr));
}

void cents_ours(benchmark::State& state) {
    for (auto _ : state)
        ours_cents();
}
BENCHMARK(cents_ours)->Unit(benchmark::kMillisecond);

void cents_ours_from_terms(benchmark::State& state) {
    for (auto _ : state)
        ours_from_terms();
}
BENCHMARK(cents_ours_from_terms)->Unit(benchmark::kMillisecond);

void cents_plain_mpfr(benchmark::State& state) {
    for (auto _ : state)
        plain_mpfr();
}
BENCHMARK(cents_plain_mpfr)->Unit(benchmark::kMillisecond);

template <typename Work>
double seconds(Work work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

void cents_ours_over_plain(benchmark::State& state) {
    double ours = 0, from_terms = 0, plain = 0;
    ratios();
    for (auto _ : state) {
        ours += seconds(ours_cents);
        from_terms += seconds(ours_from_terms);
        plain += seconds(plain_mpfr);
    }
    state.counters["ours/plain"] = ours / plain;
    state.counters["from terms/plain"] = from_terms / plain;
}
BENCHMARK(cents_ours_over_plain)->Unit(benchmark::kMillisecond);

void order(benchmark::State& state) {
    for (auto _ : state) {
        std::vector<Interval> list = ratios();
        std::sort(list.begin(), list.end());
        benchmark::DoNotOptimize(list);
    }
}
BENCHMARK(order)->Unit(benchmark::kMillisecond);

void sum_of_small_ratios(benchmark::State& state) {
    std::mt19937 random(1);
    std::vector<Interval> list;
    for (int i = 0; i < 1000; ++i)
        list.push_back(Interval::from_ratio(random() % 1000 + 1, random() % 1000 + 1));
    for (auto _ : state) {
        Interval total;
        for (const Interval& interval : list)
            total += interval;
        benchmark::DoNotOptimize(total);
    }
}
BENCHMARK(sum_of_small_ratios)->Unit(benchmark::kMillisecond);

void parse(benchmark::State& state, const char* text) {
    for (auto _ : state)
        benchmark::DoNotOptimize(sectio::parse_interval(text));
}
BENCHMARK_CAPTURE(parse, ratio, "3/2");
BENCHMARK_CAPTURE(parse, steps, "31of53");
BENCHMARK_CAPTURE(parse, cents, "701.955c");
BENCHMARK_CAPTURE(parse, stack, "12 x 3/2 - 7 x 2/1");

void print(benchmark::State& state) {
    const Interval root = sectio::parse_interval("(80/81)^(1/4)");
    for (auto _ : state)
        benchmark::DoNotOptimize(sectio::to_expression(root));
}
BENCHMARK(print);

void nearest_of_53(benchmark::State& state) {
    const sectio::EqualDivision division(53);
    const Interval target = sectio::parse_interval("5^(1/4)");
    for (auto _ : state)
        benchmark::DoNotOptimize(division.nearest(target));
}
BENCHMARK(nearest_of_53);

} // namespace
