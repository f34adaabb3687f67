// A MIDI file of 100,000 notes performed, beside loading and saving it with portSMF, a general
// library in C++, where that is installed (Debian: libportsmf-dev). The file is made here.

#include <sectio/base/file.hpp>
#include <sectio/score/tuning.hpp>
#include <sectio/tuning/perform.hpp>

#include <benchmark/benchmark.h>

#ifdef SECTIO_PORTSMF
#include <portSMF/allegro.h>

#include <cstring> // which its header forgets
#endif

#include <filesystem>

namespace {

using namespace sectio;
namespace fs = std::filesystem;

/// Four channels of 25,000 notes each, in a track of its own.
fs::path midi_file() {
    midi::File file{1, {480, 0}, {}, {}};
    unsigned dice = 1;
    const auto rolled = [&](unsigned sides) {
        dice = dice * 1'664'525 + 1'013'904'223; // W. H. Press and others, Numerical Recipes
        return static_cast<int>((dice >> 16) % sides);
    };
    for (int channel = 0; channel < 4; ++channel) {
        midi::Track track;
        for (int i = 0; i < 25'000; ++i) {
            const int key = 40 + 12 * channel + rolled(24);
            track.events.push_back(midi::note_on(track.end, channel, key, 40 + rolled(70)));
            track.end += 120 + rolled(120);
            track.events.push_back(midi::note_off(track.end, channel, key));
        }
        file.tracks.push_back(std::move(track));
    }
    const fs::path path = fs::temp_directory_path() / "sectio-bench.mid";
    write_whole(path, midi::file_bytes(file));
    return path;
}

void perform_by(benchmark::State& state, tuning::PerformBy by) {
    const fs::path from = midi_file(), to = fs::temp_directory_path() / "sectio-bench-out.mid";
    tuning::PerformOptions options;
    options.by = by;
    for (auto _ : state) {
        const auto steps = score::tuning_by_division(EqualDivision(31), "C4");
        const auto music =
            tuning::performance_of(midi::read_file(from), *steps, Pitch::concert_a());
        write_whole(to, midi::file_bytes(tuning::perform(music, options).file));
    }
}

void perform_by_bend(benchmark::State& state) {
    perform_by(state, tuning::PerformBy::bend);
}
BENCHMARK(perform_by_bend)->Unit(benchmark::kMillisecond);

void perform_by_tuning(benchmark::State& state) {
    perform_by(state, tuning::PerformBy::tuning);
}
BENCHMARK(perform_by_tuning)->Unit(benchmark::kMillisecond);

#ifdef SECTIO_PORTSMF
void portsmf_loads_and_saves(benchmark::State& state) {
    const fs::path from = midi_file(), to = fs::temp_directory_path() / "sectio-bench-smf.mid";
    for (auto _ : state) {
        Alg_seq music(from.c_str(), true);
        music.smf_write(to.c_str());
    }
}
BENCHMARK(portsmf_loads_and_saves)->Unit(benchmark::kMillisecond);
#endif

} // namespace
