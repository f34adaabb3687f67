// The sheet beside a bare cairo and pango page with the same words, in one run:
//
//     build/tests/bench/benchmarks --benchmark_filter=sheet
//
// There the fonts are read once, by whichever comes first. Whole processes, start and fonts
// included, are compared by
//
//     build/sectio sheet turkish-24 --out /tmp/sheet.txt
//     perf stat -r 30 build/sectio sheet turkish-24 --out /tmp/sheet.pdf
//     perf stat -r 30 build/tests/bench/bare_page /tmp/sheet.txt /tmp/bare.pdf

#include "bare_page/bare_page.hpp"

#include <sectio/print/print.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/sheet/sheet.hpp>

#include <benchmark/benchmark.h>

namespace {

using namespace sectio;
using namespace sectio::page;

Page eight_degrees() {
    return sheet_page(compare(parse_degrees("9/8,5/4,81/64,4/3,3/2,5/3,15/8", "benchmark")));
}
Page fifty_three_degrees() {
    return sheet_page(compare(as_scale(EqualDivision(53))));
}

template <Page (*make)()>
void sheet_pdf(benchmark::State& state) {
    const Page sheet = make();
    for (auto _ : state)
        benchmark::DoNotOptimize(print_pdf(sheet));
}

/// Baseline: every word of the sheet by one PangoLayout each, on one page.
template <Page (*make)()>
void sheet_bare_page(benchmark::State& state) {
    const auto words = bare::words_of(print_text(make()));
    for (auto _ : state)
        benchmark::DoNotOptimize(bare::page(words));
}

template <std::string (*print)(const Page&, const PrintOptions&)>
void sheet_text(benchmark::State& state) {
    const Page sheet = fifty_three_degrees();
    for (auto _ : state)
        benchmark::DoNotOptimize(print(sheet, {}));
}

void sheet_model(benchmark::State& state) {
    const Comparison comparison = compare(as_scale(EqualDivision(53)));
    for (auto _ : state)
        benchmark::DoNotOptimize(sheet_page(comparison));
}

} // namespace

BENCHMARK(sheet_bare_page<eight_degrees>)->Unit(benchmark::kMillisecond);
BENCHMARK(sheet_pdf<eight_degrees>)->Unit(benchmark::kMillisecond);
BENCHMARK(sheet_bare_page<fifty_three_degrees>)->Unit(benchmark::kMillisecond);
BENCHMARK(sheet_pdf<fifty_three_degrees>)->Unit(benchmark::kMillisecond);
BENCHMARK(sheet_text<print_text>)->Unit(benchmark::kMicrosecond);
BENCHMARK(sheet_text<print_csv>)->Unit(benchmark::kMicrosecond);
BENCHMARK(sheet_text<print_html>)->Unit(benchmark::kMillisecond);
BENCHMARK(sheet_model)->Unit(benchmark::kMicrosecond);
