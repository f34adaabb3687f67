// The sampler chunk: read, changed, put in; all else is kept.

#include "support/bytes.hpp"
#include "support/errors.hpp"
#include "support/tones.hpp"

#include <sectio/measure/messages.hpp>
#include <sectio/measure/wave_chunks.hpp>

#include <catch2/catch.hpp>

#include <sstream>

using namespace sectio::measure;
using support::little_endian;
using support::riff_chunk;

namespace {

std::string riff(const std::string& chunks) {
    return "RIFF" + little_endian(4 + chunks.size(), 4) + "WAVE" + chunks;
}

const std::string format =
    riff_chunk("fmt ", little_endian(1, 2) + little_endian(1, 2) + little_endian(44100, 4)
                           + little_endian(132300, 4) + little_endian(3, 2) + little_endian(24, 2));
const std::string sound =
    riff_chunk("data", "abcdefghi"); // three frames of 24 bits: odd, with its zero

std::string copy_of(const std::string& file, const SamplerPitch& pitch) {
    std::istringstream input(file);
    const WaveChunks wave = read_wave_chunks(input, "test.wav");
    std::string copy;
    copy_with_pitch(input, wave, pitch, "test.wav", [&](std::string_view b) { copy += b; });
    return copy;
}

std::string trouble(const std::string& file) {
    return support::name_of(support::error_of([&] { copy_of(file, {}); }));
}

} // namespace

TEST_CASE("A sampler chunk is put after the last chunk") {
    const std::string file = riff(format + riff_chunk("LIST", "odd") + sound) + "trailing";
    const std::string copy = copy_of(file, {62, 0x80000000});
    const std::string smpl =
        riff_chunk("smpl", little_endian(0, 8) + little_endian(22676, 4) + little_endian(62, 4)
                               + little_endian(0x80000000, 4) + little_endian(0, 16));
    CHECK(copy == riff(format + riff_chunk("LIST", "odd") + sound + smpl) + "trailing");
}

TEST_CASE("Of a sampler chunk that is there only key and fraction change") {
    const std::string before =
        little_endian(0x01000013, 4) + little_endian(7, 4) + little_endian(22676, 4);
    const std::string after = little_endian(0, 8) + little_endian(1, 4) + little_endian(4, 4)
                              + little_endian(0, 8) + little_endian(1, 4) + little_endian(2, 4)
                              + little_endian(0, 8) + "data";
    const auto file = [&](const SamplerPitch& p) {
        return riff(format
                    + riff_chunk("smpl", before + little_endian(p.key, 4)
                                             + little_endian(p.fraction, 4) + after)
                    + sound);
    };
    CHECK(copy_of(file({60, 0}), {41, 12345}) == file({41, 12345}));
    std::istringstream input(file({60, 5}));
    CHECK(sampler_pitch(input, read_wave_chunks(input, "x"), "x") == SamplerPitch{60, 5});
}

TEST_CASE("RF64 has its size of 64 bits changed") {
    const auto file = [&](std::uint64_t more, const std::string& smpl) {
        const std::string body = format + "data" + little_endian(0xFFFFFFFF, 4) + "abcdefgh" + smpl;
        const std::string ds64 = little_endian(4 + 36 + format.size() + 16 + more, 8)
                                 + little_endian(8, 8) + little_endian(8, 8) + little_endian(0, 4);
        return "RF64" + little_endian(0xFFFFFFFF, 4) + "WAVE" + riff_chunk("ds64", ds64) + body;
    };
    const std::string copy = copy_of(file(0, ""), {60, 9});
    const std::string smpl = copy.substr(copy.size() - 44);
    CHECK(smpl.substr(0, 4) == "smpl");
    CHECK(copy == file(44, smpl));
}

TEST_CASE("Damaged chunks are refused in words") {
    CHECK(trouble("no sound at all") == "not_wave");
    CHECK(trouble("RIFF") == "not_wave");
    CHECK(trouble(riff(format)) == "wave_damaged");
    CHECK(trouble(riff(sound)) == "wave_damaged");
    CHECK(trouble(riff(format + "data" + little_endian(5000, 4) + "abcd")) == "wave_damaged");
    CHECK(trouble(riff(format + sound).substr(0, 40)) == "wave_damaged");
    CHECK(trouble(riff(format + sound + riff_chunk("smpl", "short"))) == "wave_damaged");
    CHECK(trouble("RF64" + little_endian(0xFFFFFFFF, 4) + "WAVE" + format + sound)
          == "wave_damaged");
}

TEST_CASE("A header that claims more than there is says both sizes") {
    std::istringstream file("RIFF" + little_endian(1000, 4) + "WAVE" + format + sound);
    const auto error = support::error_of([&] { read_wave_chunks(file, "test.wav"); });
    REQUIRE(error);
    const std::size_t after_header = 4 + format.size() + sound.size();
    CHECK_THAT(error->what(),
               Catch::Contains("claims 1000 bytes, the file has " + std::to_string(after_header)));
}
