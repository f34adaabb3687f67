// A MIDI file cut at every byte, and with every byte changed: refused or read, never worse.

#include <sectio/base/error.hpp>
#include <sectio/tuning/midi_file.hpp>

#include <catch2/catch.hpp>
#include <support/bytes.hpp>
#include <support/errors.hpp>

using namespace sectio;

namespace {

std::string sound_file() {
    midi::File file{1, {480, 0}, {}, {}};
    file.tracks.push_back({{midi::meta_event(0, midi::meta::track_name, "strings"),
                            midi::tempo(0, 400'000), midi::program(0, 0, 46)},
                           0});
    file.tracks.push_back(
        {{midi::system_exclusive(0, support::bytes("F07F7F0802000145450000F7")),
          midi::note_on(0, 0, 69, 80), midi::note_on(10, 0, 70, 80), midi::pitch_bend(300, 0, 8000),
          midi::note_off(960, 0, 69), midi::note_off(960, 0, 70)},
         1920});
    return midi::file_bytes(file);
}

} // namespace

TEST_CASE("A MIDI file that is cut anywhere is refused") {
    const std::string whole = sound_file();
    for (std::size_t length = 0; length < whole.size(); ++length) {
        CAPTURE(length);
        CHECK(support::error_of([&] { midi::read_file(whole.substr(0, length), "cut"); }));
    }
}

TEST_CASE("A MIDI file with one byte changed is refused, or read and written as what it is now") {
    const std::string whole = sound_file();
    int read = 0, refused = 0;
    for (std::size_t place = 0; place < whole.size(); ++place)
        for (const int change : {0x01, 0x40, 0x80, 0xFF}) {
            std::string damaged = whole;
            damaged[place] = static_cast<char>(damaged[place] ^ change);
            try {
                const midi::File file = midi::read_file(damaged, "changed");
                REQUIRE(midi::read_file(midi::file_bytes(file), "again") == file);
                ++read;
            } catch (const Error&) {
                ++refused;
            }
        }
    CHECK(read > 100);
    CHECK(refused > 100);
}
