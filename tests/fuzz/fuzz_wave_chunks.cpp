// Any bytes as a WAVE file: whole chunks and a copy that reads back with the new pitch and differs
// nowhere else, or an error with a text.

#include <sectio/base/error.hpp>
#include <sectio/measure/wave_chunks.hpp>

#include <cstdint>
#include <cstdlib>
#include <sstream>

namespace {

constexpr sectio::measure::SamplerPitch asked{61, 0x40000000};

std::string chunk_bytes(const std::string& file, const sectio::measure::WaveChunk& chunk) {
    return file.substr(chunk.begin(), chunk.size);
}

bool same_but_for_pitch(const std::string& file, const sectio::measure::WaveChunks& wave) {
    std::istringstream input(file);
    std::string copy;
    copy_with_pitch(input, wave, asked, "fuzz.wav", [&](std::string_view bytes) { copy += bytes; });
    std::istringstream again(copy);
    const auto written = sectio::measure::read_wave_chunks(again, "copy.wav");
    if (sectio::measure::sampler_pitch(again, written, "copy.wav") != asked
        || written.chunks.size() != wave.chunks.size() + (wave.find("smpl") ? 0 : 1))
        return false;
    for (std::size_t i = 0; i < wave.chunks.size(); ++i)
        if (wave.chunks[i].id != "smpl" && wave.chunks[i].id != "ds64"
            && chunk_bytes(file, wave.chunks[i]) != chunk_bytes(copy, written.chunks[i]))
            return false;
    return copy.substr(written.end) == file.substr(wave.end);
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string bytes(reinterpret_cast<const char*>(data), size);
    std::istringstream input(bytes);
    try {
        if (!same_but_for_pitch(bytes, sectio::measure::read_wave_chunks(input, "fuzz.wav")))
            std::abort();
    } catch (const sectio::Error& error) {
        if (error.message().empty() || error.advice().empty())
            std::abort();
    }
    return 0;
}
