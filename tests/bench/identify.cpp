// One question to a library of 10,000 scales, and to smaller ones: the time is linear in the
// library. And sets at random, as a list of many files asks for them.

#include <sectio/identify/identify.hpp>
#include <sectio/scale/reading.hpp>

#include <benchmark/benchmark.h>

#include <algorithm>
#include <random>

using namespace sectio;

namespace {

/// The catalogue's scales, then synthetic ones of 5 to 12 degrees at random whole cents.
ScaleLibrary library_of(std::size_t count) {
    std::vector<Entry> entries;
    for (const Entry& entry : Catalogue::installed().all())
        if (entry.scale() && entries.size() < count)
            entries.push_back(entry);
    std::mt19937 random(1);
    while (entries.size() < count) {
        std::vector<int> cents;
        const std::size_t degrees = 4 + random() % 8;
        while (cents.size() < degrees) {
            cents.push_back(static_cast<int>(1 + random() % 1199));
            std::sort(cents.begin(), cents.end());
            cents.erase(std::unique(cents.begin(), cents.end()), cents.end());
        }
        std::string text;
        for (const int c : cents)
            text += (text.empty() ? "" : ",") + std::to_string(c) + "c";
        const std::string id = "synthetic-" + std::to_string(entries.size());
        ScaleFacts facts;
        facts.scale = parse_degrees(text, id);
        entries.push_back({id, id, {}, "", "", std::move(facts)});
    }
    return ScaleLibrary(entries);
}

void ask(benchmark::State& state) {
    const ScaleLibrary library = library_of(static_cast<std::size_t>(state.range(0)));
    const Melody melody = to_melody(parse_pitches("190c, 290c, 505c, 700c, 880c, 1001c"));
    IdentifyOptions options;
    options.tonic.kind = KnownTonic::Kind::free;
    for (auto _ : state)
        benchmark::DoNotOptimize(identify(melody, library, options));
    state.SetComplexityN(state.range(0));
}

/// Nothing accounts for most of them, so that no scale leads early and many places are weighed.
void name_sets(benchmark::State& state) {
    std::mt19937 random(1);
    std::vector<Melody> sets;
    while (sets.size() < 100) {
        std::string text;
        for (int i = 1; i < 7; ++i)
            text += (i > 1 ? ", " : "") + std::to_string(1 + random() % 1199) + "c";
        sets.push_back(to_melody(parse_pitches(text)));
    }
    IdentifyOptions options;
    options.names_alone = state.range(0) != 0;
    std::size_t next = 0;
    for (auto _ : state)
        benchmark::DoNotOptimize(
            identify(sets[next++ % sets.size()], ScaleLibrary::installed(), options));
}

} // namespace

BENCHMARK(name_sets)
    ->Name("identify seven pitches at random, names alone")
    ->Arg(0)
    ->Arg(1)
    ->Unit(benchmark::kMicrosecond);

BENCHMARK(ask)
    ->Name("identify seven pitches, tonic unknown, among")
    ->Arg(1000)
    ->Arg(3000)
    ->Arg(10000)
    ->Unit(benchmark::kMillisecond)
    ->Complexity(benchmark::oN);
