// Any text read as an instrument file, as a table and a list of frets, and as a table and a list of
// a tuner's readings: an answer or an error with a text, and answers keep their order.

#include <sectio/instrument/fret_text.hpp>
#include <sectio/instrument/instrument.hpp>
#include <sectio/measure/readings.hpp>

#include <cstdint>
#include <cstdlib>

namespace {

using sectio::Length;

template <typename Read>
void attempt(Read read) {
    try {
        read();
    } catch (const sectio::Error& error) {
        if (error.message().empty() || error.advice().empty())
            std::abort();
    }
}

/// Frets farther from the nut sound higher.
void check_frets(const std::vector<sectio::FretReading>& readings) {
    sectio::MeasuredString string;
    string.length = sectio::MeasuredLength{Length::millimetres(1'000'000), {}, {}};
    const auto answer = sectio::measure_frets(string, readings);
    for (const sectio::MeasuredFret& fret : answer.frets)
        if (fret.interval <= sectio::Interval())
            std::abort();
}

void check_instrument(const sectio::Instrument& instrument) {
    for (const sectio::InstrumentString& string : instrument.strings)
        if (!instrument.frets.empty())
            attempt([&] { sectio::scale_of(instrument, string); });
}

void check_readings(std::vector<sectio::measure::Reading> readings) {
    const auto notes = sectio::measure::notes_of(std::move(readings), sectio::Interval::octave());
    for (std::size_t i = 1; i < notes.size(); ++i)
        if (notes[i].pitch < notes[i - 1].pitch)
            std::abort();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    const sectio::Pitch& a4 = sectio::Pitch::concert_a();
    attempt([&] { check_instrument(sectio::read_instrument_file(text, "fuzz.toml")); });
    attempt([&] { check_frets(sectio::read_fret_table(text, "fuzz.csv").readings); });
    attempt([&] { check_frets(sectio::parse_fret_list(text, {"fuzz"})); });
    attempt([&] { check_readings(sectio::measure::read_reading_table(text, "fuzz.csv", a4)); });
    attempt([&] { check_readings(sectio::measure::parse_readings(text, a4, {"fuzz"})); });
    return 0;
}
