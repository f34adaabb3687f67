// Sound whose file libsndfile cannot read as it stands: BW64, and chunks of odd size.

#include "support/bytes.hpp"
#include "support/errors.hpp"
#include "support/paths.hpp"

#include <sectio/measure/sound_file.hpp>

#include <catch2/catch.hpp>

using namespace sectio::measure;
using support::little_endian;
using support::riff_chunk;

namespace {

constexpr int frames = 1000;

/// 16 bits, one channel: a rising line.
std::string line() {
    std::string bytes;
    for (int i = 0; i < frames; ++i)
        bytes += little_endian(static_cast<std::uint64_t>(i), 2);
    return bytes;
}

const std::string two_bytes =
    riff_chunk("fmt ", little_endian(1, 2) + little_endian(1, 2) + little_endian(44'100, 4)
                           + little_endian(88'200, 4) + little_endian(2, 2) + little_endian(16, 2));
const std::string odd_sampler =
    riff_chunk("smpl", std::string(32, '\0') + little_endian(3, 4) + "abc");

std::string plain_form(const std::string& chunks) {
    return "RIFF" + little_endian(4 + chunks.size(), 4) + "WAVE" + chunks;
}

std::string wide_form(const std::string& form, const std::string& before) {
    const std::string body = two_bytes + before + "data" + little_endian(0xFFFFFFFF, 4) + line();
    return form + little_endian(0xFFFFFFFF, 4) + "WAVE"
           + riff_chunk("ds64", little_endian(4 + 36 + body.size(), 8)
                                    + little_endian(2 * frames, 8) + little_endian(frames, 8)
                                    + little_endian(0, 4))
           + body;
}

} // namespace

TEST_CASE("Sound is read past chunks that libsndfile stumbles over") {
    const support::TempDir folder;
    const auto heard = [&](const std::string& bytes) {
        support::write_file(folder / "a.wav", bytes);
        SoundFile sound(folder / "a.wav");
        CHECK(sound.rate() == 44'100);
        CHECK(sound.promised_frames() == frames);
        std::vector<float> samples(2 * frames);
        CHECK(sound.read(samples) == frames);
        bool same = true;
        for (int i = 0; i < frames; ++i)
            same = same && samples[static_cast<std::size_t>(i)] == static_cast<float>(i) / 32'768;
        return same;
    };
    CHECK(heard(plain_form(two_bytes + riff_chunk("data", line()))));
    CHECK(heard(plain_form(two_bytes + odd_sampler + riff_chunk("data", line()))));
    CHECK(heard(plain_form(riff_chunk("data", line()) + two_bytes)));
    CHECK(heard(wide_form("RF64", "")));
    CHECK(heard(wide_form("RF64", riff_chunk("JUNK", "odd"))));
    CHECK(heard(wide_form("BW64", odd_sampler)));
}

TEST_CASE("A file with two sounds, or with a chunk cut short, is refused") {
    const support::TempDir folder;
    const auto trouble = [&](const std::string& bytes) {
        support::write_file(folder / "a.wav", bytes);
        return support::name_of(support::error_of([&] { SoundFile sound(folder / "a.wav"); }));
    };
    const std::string sound = riff_chunk("data", line());
    CHECK(trouble(plain_form(two_bytes + sound + sound)) == "wave_damaged");
    CHECK(trouble(plain_form(two_bytes + sound + riff_chunk("data", ""))) == "wave_damaged");
    CHECK(trouble(plain_form(two_bytes + riff_chunk("data", ""))) == "sound_empty");
    CHECK(trouble(plain_form(two_bytes + odd_sampler + sound).substr(0, 200)) == "no_sound_file");
    CHECK(trouble(wide_form("BW64", "").substr(0, 60)) == "no_sound_file");
}
