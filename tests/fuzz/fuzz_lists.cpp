// Any text as what lists may stand in one argument: pitches or intervals, measured frets, a tuner's
// readings. Each is refused with a text, or read into what is written down again alike.

#include <sectio/base/limits.hpp>
#include <sectio/instrument/fret_text.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/measure/readings.hpp>
#include <sectio/scale/reading.hpp>

#include <cstdint>
#include <cstdlib>

using namespace sectio;

namespace {

void require(bool condition) {
    if (!condition)
        std::abort();
}

template <typename Read>
void attempt(Read read) {
    try {
        read();
    } catch (const Error& error) {
        require(!error.message().empty() && !error.advice().empty());
    }
}

/// The list as expressions reads as the same intervals.
void check_pitches(const PitchList& list) {
    require(!list.pitches.empty() && list.pitches.size() <= limits::identified_pitches);
    std::string text;
    for (const ListedPitch& pitch : list.pitches)
        text += (text.empty() ? "" : ",") + to_expression(pitch.above.figure);
    const PitchList again = parse_pitches(text, {"again"});
    require(again.pitches.size() == list.pitches.size());
    for (std::size_t i = 0; i < list.pitches.size(); ++i)
        require(again.pitches[i].above.figure == list.pitches[i].above.figure);
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    attempt([&] { check_pitches(parse_pitches(text, {"fuzz", 0, 1})); });
    attempt([&] { require(!parse_fret_list(text, {"fuzz", 0, 1}).empty()); });
    attempt([&] { require(!read_fret_table(text, "fuzz.csv").readings.empty()); });
    attempt([&] {
        require(!measure::parse_readings(text, Pitch::concert_a(), {"fuzz", 0, 1}).empty());
    });
    return 0;
}
