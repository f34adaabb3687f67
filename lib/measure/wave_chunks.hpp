#pragma once
/// @file
/// The chunks of a WAVE file, and copies of it that differ in the sampler chunk alone.
///
/// Sources: IBM, Microsoft, "Multimedia Programming Interface and Data Specifications 1.0", 1991
/// (RIFF); Microsoft, "New Multimedia Data Types and Data Techniques", 1994 (the chunk `smpl`); EBU
/// Tech 3306 and ITU-R BS.2088 (RF64 and BW64).

#include <sectio/base/file.hpp>

#include <cstdint>
#include <filesystem>
#include <istream>
#include <optional>
#include <string>
#include <vector>

namespace sectio::measure {

/// Key and fraction as the sampler chunk has them: the sample sounds as it was recorded on a key
/// that is `fraction` / 2^32 of a semitone above `key`.
struct SamplerPitch {
    std::uint32_t key = 60;
    std::uint32_t fraction = 0;
    friend bool operator==(const SamplerPitch&, const SamplerPitch&) = default;
};

/// A chunk: its bytes begin 8 after its header, and are followed by a zero where odd in number.
struct WaveChunk {
    std::string id; ///< four bytes
    std::uint64_t header = 0;
    std::uint64_t size = 0;

    std::uint64_t begin() const { return header + 8; }
    std::uint64_t end() const { return begin() + size + size % 2; }
};

/// The chunks of a file, all of which are whole.
struct WaveChunks {
    bool wide = false;      ///< RF64 or BW64: sizes of 64 bits in the chunk ds64
    bool wide_form = false; ///< that of the form stands there
    std::vector<WaveChunk> chunks;
    std::uint64_t end = 0;       ///< of the RIFF form
    std::uint64_t file_size = 0; ///< bytes after the form are no part of it, and are kept
    std::uint32_t rate = 0;      ///< frames a second, by the chunk fmt

    const WaveChunk* find(const std::string& id) const;
};

/// Reads the headers of all chunks; of sound not a byte. `name` stands in errors.
/// @throws Error not_wave, wave_damaged
WaveChunks read_wave_chunks(std::istream& file, const std::string& name);

/// What stands before the sound in a file of the same form that holds nothing else: its header, the
/// chunks `fmt ` and `fact`, and the header of `data`, whose bytes come next. BW64 becomes RF64.
/// @throws Error wave_damaged where there are several chunks `fmt ` or `data`
std::string bare_head(std::istream& file, const WaveChunks& wave, const std::string& name);

/// What the sampler chunk says, if there is one. @throws Error wave_damaged
std::optional<SamplerPitch> sampler_pitch(std::istream& file, const WaveChunks& wave,
                                          const std::string& name);

/// Hands the bytes of the same file to `sink`, with `pitch` in its sampler chunk: of one that is
/// there only key and fraction change; one that is missing comes after the last chunk, and the
/// size of the form grows by it.
/// @throws Error wave_full, wave_damaged
void copy_with_pitch(std::istream& file, const WaveChunks& wave, const SamplerPitch& pitch,
                     const std::string& name, const Sink& sink);

} // namespace sectio::measure
