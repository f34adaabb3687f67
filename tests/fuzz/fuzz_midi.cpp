// Any bytes: read as a MIDI file or refused; what is read is written and comes back as it was.

#include <sectio/base/error.hpp>
#include <sectio/tuning/midi_file.hpp>
#include <sectio/tuning/tempo_map.hpp>

#include <cstdint>
#include <cstdlib>
#include <string>

using namespace sectio;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        const midi::File file =
            midi::read_file(std::string_view(reinterpret_cast<const char*>(data), size), "fuzz");
        if (midi::read_file(midi::file_bytes(file), "again") != file)
            std::abort();
        const midi::TempoMap map(file);
        for (const midi::Track& track : file.tracks)
            if (map.seconds(track.end) < Rational(0))
                std::abort();
    } catch (const Error&) { // refused with a reason
    }
    return 0;
}
