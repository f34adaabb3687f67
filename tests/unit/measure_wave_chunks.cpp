// The sampler chunk: read, changed, put in; all else is kept.

#include "support/errors.hpp"
#include "support/tones.hpp"

#include <sectio/measure/messages.hpp>
#include <sectio/measure/wave_chunks.hpp>

#include <catch2/catch.hpp>

#include <sstream>

using namespace sectio::measure;

namespace {

std::string bytes_of(std::uint64_t value, int size) {
    std::string bytes;
    for (int i = 0; i < size; ++i)
        bytes += static_cast<char>(i < 8 ? value >> (8 * i) & 0xFF : 0);
    return bytes;
}

std::string chunk(const std::string& id, const std::string& content) {
    return id + bytes_of(content.size(), 4) + content + std::string(content.size() % 2, '\0');
}

std::string riff(const std::string& chunks) {
    return "RIFF" + bytes_of(4 + chunks.size(), 4) + "WAVE" + chunks;
}

const std::string format =
    chunk("fmt ", bytes_of(1, 2) + bytes_of(1, 2) + bytes_of(44100, 4) + bytes_of(132300, 4)
                      + bytes_of(3, 2) + bytes_of(24, 2));
const std::string sound = chunk("data", "abcdefghi"); // three frames of 24 bits: odd, with its zero

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

TEST_CASE("A sampler chunk is put behind the last chunk") {
    const std::string file = riff(format + chunk("LIST", "odd") + sound) + "trailing";
    const std::string copy = copy_of(file, {62, 0x80000000});
    const std::string smpl = chunk("smpl", bytes_of(0, 8) + bytes_of(22676, 4) + bytes_of(62, 4)
                                               + bytes_of(0x80000000, 4) + bytes_of(0, 16));
    CHECK(copy == riff(format + chunk("LIST", "odd") + sound + smpl) + "trailing");
}

TEST_CASE("Of a sampler chunk that is there only key and fraction change") {
    const std::string before = bytes_of(0x01000013, 4) + bytes_of(7, 4) + bytes_of(22676, 4);
    const std::string after = bytes_of(0, 8) + bytes_of(1, 4) + bytes_of(4, 4) + bytes_of(0, 8)
                              + bytes_of(1, 4) + bytes_of(2, 4) + bytes_of(0, 8) + "data";
    const auto file = [&](const SamplerPitch& p) {
        return riff(format
                    + chunk("smpl", before + bytes_of(p.key, 4) + bytes_of(p.fraction, 4) + after)
                    + sound);
    };
    CHECK(copy_of(file({60, 0}), {41, 12345}) == file({41, 12345}));
    std::istringstream input(file({60, 5}));
    CHECK(sampler_pitch(input, read_wave_chunks(input, "x"), "x") == SamplerPitch{60, 5});
}

TEST_CASE("RF64 has its size of 64 bits changed") {
    const auto file = [&](std::uint64_t more, const std::string& smpl) {
        const std::string body = format + "data" + bytes_of(0xFFFFFFFF, 4) + "abcdefgh" + smpl;
        const std::string ds64 = bytes_of(4 + 36 + format.size() + 16 + more, 8) + bytes_of(8, 8)
                                 + bytes_of(8, 8) + bytes_of(0, 4);
        return "RF64" + bytes_of(0xFFFFFFFF, 4) + "WAVE" + chunk("ds64", ds64) + body;
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
    CHECK(trouble(riff(format + "data" + bytes_of(5000, 4) + "abcd")) == "wave_damaged");
    CHECK(trouble(riff(format + sound).substr(0, 40)) == "wave_damaged");
    CHECK(trouble(riff(format + sound + chunk("smpl", "short"))) == "wave_damaged");
    CHECK(trouble("RF64" + bytes_of(0xFFFFFFFF, 4) + "WAVE" + format + sound) == "wave_damaged");
}

TEST_CASE("A header that claims more than there is says both sizes") {
    std::istringstream file("RIFF" + bytes_of(1000, 4) + "WAVE" + format + sound);
    const auto error = support::error_of([&] { read_wave_chunks(file, "test.wav"); });
    REQUIRE(error);
    const std::size_t after_header = 4 + format.size() + sound.size();
    CHECK_THAT(error->what(),
               Catch::Contains("claims 1000 bytes, the file has " + std::to_string(after_header)));
}
