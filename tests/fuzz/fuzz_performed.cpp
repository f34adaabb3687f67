// Any score or MIDI file played in a scale: a MIDI file that reads back, every way of tuning it, or
// an error with a text.

#include <sectio/score/score.hpp>
#include <sectio/score/tuning.hpp>
#include <sectio/tuning/perform.hpp>
#include <sectio/tuning/performance.hpp>

#include <cstdint>
#include <cstdlib>

using namespace sectio;
using namespace sectio::tuning;

namespace {

void require(bool condition) {
    if (!condition)
        std::abort();
}

const score::NoteTuning& just() {
    static const auto tuning = score::tuning_by_scale(
        tuned(parse_degrees("9/8, 5/4, 4/3, 3/2, 5/3, 15/8", ""), {"D4", std::nullopt}));
    return *tuning;
}

Performance music_of(std::string bytes) {
    const Pitch& a4 = Pitch::concert_a();
    if (bytes.starts_with("MThd"))
        return performance_of(midi::read_file(bytes, "fuzz.mid"), just(), a4);
    return performance_of(score::read_score(score::document_of(std::move(bytes), "fuzz")), {},
                          just(), a4);
}

/// Notes sound in the order of time, and none ends before it begins.
void check(const Performance& music) {
    for (std::size_t i = 0; i < music.notes.size(); ++i)
        require(music.notes[i].begin <= music.notes[i].end
                && (i == 0 || music.notes[i - 1].begin <= music.notes[i].begin));
}

template <typename Act>
void attempt(Act act) {
    try {
        act();
    } catch (const Error& error) {
        require(!error.message().empty() && !error.advice().empty());
    }
}

void check_played(const Performance& music, const PerformOptions& options) {
    const Performed performed = perform(music, options);
    require(performed.notes <= music.notes.size());
    require(performed.worst_error >= Interval());
    const std::string bytes = midi::file_bytes(performed.file);
    require(midi::file_bytes(midi::read_file(bytes, "again.mid")) == bytes);
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    attempt([&] {
        const Performance music = music_of({reinterpret_cast<const char*>(data), size});
        check(music);
        attempt([&] { check_played(music, {}); });
        attempt([&] { check_played(music, {ChannelUse::zone, {}, PerformBy::bend, {}}); });
        attempt([&] { check_played(music, {ChannelUse::plain, {}, PerformBy::tuning, {}}); });
    });
    return 0;
}
