// Files of tuning messages: written, read back, refused where damaged.

#include <sectio/tuning/messages.hpp>
#include <sectio/tuning/tuning_file.hpp>

#include <catch2/catch.hpp>
#include <support/bytes.hpp>
#include <support/errors.hpp>

using namespace sectio;
using namespace sectio::tuning;
using support::bytes;

namespace {

/// One key changed in program 3.
const std::string change = bytes("F0 7F 7F 08 02 03 01 45 450001 F7");

TuningMessage changed_key() {
    return read_message(change, "", "");
}

std::string refusal(const std::string& content) {
    return support::name_of(support::error_of([&] { read_tuning_file(content, "a.syx"); }));
}

} // namespace

TEST_CASE("Tuning file: messages one after the other") {
    TuningMessage octave;
    octave.kind = MessageKind::octave_1;
    octave.offsets[4] = -14;
    const std::string both = exclusive_bytes({changed_key(), octave});
    CHECK(both.substr(0, change.size()) == change);
    const TuningFile file = read_tuning_file(both, "a.syx");
    CHECK(file.messages == std::vector{changed_key(), octave});
    CHECK(file.others == 0);
}

TEST_CASE("Tuning file: other messages are counted, clock ticks between bytes passed over") {
    const std::string other = bytes("F0 7E 7F 06 01 F7");
    const TuningFile file =
        read_tuning_file(other + "\xF8" + change.substr(0, 4) + "\xFE" + change.substr(4), "");
    CHECK(file.messages == std::vector{changed_key()});
    CHECK(file.others == 1);
}

TEST_CASE("Tuning file: what is no message is refused with its byte") {
    CHECK(refusal("") == "no_tuning_message");
    CHECK(refusal(bytes("F0 7E 7F 06 01 F7")) == "no_tuning_message");
    CHECK(refusal(change + "\n") == "exclusive_stray_byte");
    CHECK(refusal("no dump") == "exclusive_stray_byte");
    CHECK(refusal(change.substr(0, 8) + change) == "exclusive_stray_byte");
    CHECK(refusal(change.substr(0, 9)) == "exclusive_cut");
    CHECK(refusal(bytes("F0 7F 7F 08 02 03 02 45 450001 F7")) == "tuning_length");
    const auto error =
        support::error_of([] { read_tuning_file(change + change.substr(0, 7) + "\xF7", "a.syx"); });
    REQUIRE(error);
    CHECK(std::string(error->what())
          == "a.syx: the single note change at byte 12 has 8 bytes, and should have 12; fetch the "
             "file again: some of it is missing or was added");
}

TEST_CASE("Tuning file: a MIDI file sends the messages and selects bank and program") {
    TuningMessage in_bank = changed_key();
    in_bank.kind = MessageKind::note_change_in_bank;
    in_bank.bank = 5;
    const midi::File file = tuning_midi_file({in_bank}, 0b101);
    REQUIRE(file.tracks.size() == 1);
    const auto& events = file.tracks[0].events;
    REQUIRE(events.size() == 2 + 2 * 8);
    CHECK(events[1] == midi::system_exclusive(0, bytes_of(in_bank)));
    const midi::Ticks after = events[2].time;
    CHECK(after == 4 + 19); // 13 bytes take 4.16 ms; a fiftieth of a second more
    // Controllers by the standard: 101 0, 100 4, 6 bank; 101 0, 100 3, 6 program.
    const int wanted[][2] = {{101, 0}, {100, 4}, {6, 5},     {101, 0},
                             {100, 3}, {6, 3},   {101, 127}, {100, 127}};
    for (std::size_t i = 0; i < 8; ++i) {
        CHECK(events[2 + i] == midi::control(after, 0, wanted[i][0], wanted[i][1]));
        CHECK(events[10 + i] == midi::control(after, 2, wanted[i][0], wanted[i][1]));
    }
    CHECK(read_tuning_file(midi::file_bytes(file), "a.mid").messages == std::vector{in_bank});
}

TEST_CASE("Tuning file: messages for channels need no selection") {
    TuningMessage octave;
    octave.kind = MessageKind::octave_2;
    CHECK(tuning_midi_file({octave}, 0xFFFF).tracks[0].events.size() == 2);
}

TEST_CASE("Tuning file: a message sent in packets is put together") {
    midi::Track track;
    track.events = {{0, midi::status::system_exclusive, 0, change.substr(1, 5)},
                    midi::note_on(1, 0, 60, 1),
                    {2, midi::status::escape, 0, change.substr(6)}};
    track.end = 2;
    const midi::File file{0, {480, 0}, {track}, {}};
    CHECK(read_tuning_file(midi::file_bytes(file), "").messages == std::vector{changed_key()});
}

TEST_CASE("Tuning file: a MIDI file's messages are checked as those of a dump are") {
    const auto refused = [](std::vector<midi::Event> events) {
        const midi::Ticks end = events.back().time;
        const midi::File file{0, {480, 0}, {{std::move(events), end}}, {}};
        return refusal(midi::file_bytes(file));
    };
    std::string damaged = change.substr(1);
    damaged[6] = '\xC5'; // the key
    CHECK(refused({{0, midi::status::system_exclusive, 0, damaged}}) == "tuning_data_byte");
    const midi::Event begun{0, midi::status::system_exclusive, 0, change.substr(1, 5)};
    const midi::Event whole{1, midi::status::system_exclusive, 0, change.substr(1)};
    CHECK(refused({begun, whole}) == "tuning_not_ended");
    CHECK(refused({whole, {2, midi::status::system_exclusive, 0, change.substr(1, 5)}})
          == "tuning_not_ended");
}
