// Standard MIDI Files: the examples of the standard, what is read back, and what is refused.

#include <sectio/base/messages.hpp>
#include <sectio/tuning/messages.hpp>
#include <sectio/tuning/midi_file.hpp>
#include <sectio/tuning/tempo_map.hpp>

#include <catch2/catch.hpp>
#include <support/bytes.hpp>
#include <support/errors.hpp>
#include <support/paths.hpp>

using namespace sectio;
using namespace std::string_literals;
using support::bytes;

namespace {

std::string header(const std::string& format, const std::string& tracks,
                   const std::string& division) {
    return "MThd" + bytes("00000006" + format + tracks + division);
}

std::string chunk(const std::string& kind, const std::string& content) {
    return kind + support::number(content.size(), 4) + content;
}

/// A file of one track with these bytes.
std::string one_track(const std::string& hex) {
    return header("0000", "0001", "0060") + chunk("MTrk", bytes(hex));
}

midi::File read(const std::string& content) {
    return midi::read_file(content, "a.mid");
}

std::string refusal(const std::string& content) {
    return support::name_of(support::error_of([&] { read(content); }));
}

midi::File of_one_track(std::vector<midi::Event> events, midi::Ticks end) {
    return {0, {96, 0}, {{std::move(events), end}}, {}};
}

} // namespace

TEST_CASE("MIDI file: the example of the standard, format 0") {
    // Standard MIDI Files 1.0, appendix "Program fragments and example MIDI files" (from memory).
    const std::string example = one_track("00FF580404021808 00FF510307A120 00C005 00C12E 00C246"
                                          "00923060 003C60 60914340 60904C20 8140823040 003C40"
                                          "00814340 00804C40 00FF2F00");
    const midi::File file = read(example);
    CHECK(file.format == 0);
    CHECK(file.time_base == midi::TimeBase{96, 0});
    REQUIRE(file.tracks.size() == 1);
    const auto& events = file.tracks[0].events;
    REQUIRE(events.size() == 13);
    CHECK(file.tracks[0].end == 384);
    CHECK(events[1] == midi::tempo(0, 500'000));
    CHECK(events[2] == midi::program(0, 0, 5));
    CHECK(events[6] == midi::note_on(0, 2, 60, 96)); // by running status
    CHECK(events[8] == midi::note_on(192, 0, 76, 32));
    CHECK(events[9] == midi::note_off(384, 2, 48, 64));
    CHECK(midi::file_bytes(file) == example);
}

TEST_CASE("MIDI file: times in groups of seven bits") {
    // Standard MIDI Files 1.0, variable-length quantities.
    const auto [ticks, hex] = GENERATE(table<midi::Ticks, const char*>({{0, "00"},
                                                                        {0x40, "40"},
                                                                        {0x7F, "7F"},
                                                                        {0x80, "8100"},
                                                                        {0x2000, "C000"},
                                                                        {0x3FFF, "FF7F"},
                                                                        {0x4000, "818000"},
                                                                        {0x100000, "C08000"},
                                                                        {0x1FFFFF, "FFFF7F"},
                                                                        {0x200000, "81808000"},
                                                                        {0x8000000, "C0808000"},
                                                                        {0xFFFFFFF, "FFFFFF7F"}}));
    const auto file = of_one_track({midi::note_on(ticks, 0, 60, 1)}, ticks);
    const std::string expected = one_track(hex + "903C01 00FF2F00"s);
    CHECK(midi::file_bytes(file) == expected);
    CHECK(read(expected) == file);
}

TEST_CASE("MIDI file: a silence beyond the standard's longest is refused, not cut") {
    const auto file = of_one_track({}, 1 << 28);
    CHECK(support::name_of(support::error_of([&] { midi::file_bytes(file); })) == "midi_too_long");
}

TEST_CASE("MIDI file: all kinds of events come back as they were") {
    midi::File file{1, {480, 0}, {}, {{"Junk", "anything\0 at all"s}}};
    file.tracks.push_back({{midi::meta_event(0, midi::meta::track_name, "strings"),
                            midi::tempo(0, 400'000),
                            midi::program(0, 15, 127),
                            midi::system_exclusive(5, bytes("F07E7F0900F7")),
                            {5, midi::status::escape, 0, bytes("F8")},
                            midi::control(5, 3, 101, 0),
                            midi::pitch_bend(6, 3, 16383),
                            {7, 0xD3, 0, bytes("40")},
                            {7, 0xA3, 0, bytes("3C40")},
                            midi::note_on(9, 3, 60, 0)},
                           900});
    file.tracks.push_back({{}, 0});
    const std::string written = midi::file_bytes(file);
    CHECK(read(written) == file);
    CHECK(midi::file_bytes(read(written)) == written);
    CHECK(file.tracks[0].events[6].data == bytes("7F7F"));
    CHECK(file.tracks[0].events.back().ends_note());
    CHECK_FALSE(file.tracks[0].events.back().begins_note());
}

TEST_CASE("MIDI file: a longer header and a time base in frames are read") {
    const std::string longer = "MThd" + bytes("00000008 0002 0000 E728 FFFF");
    const midi::File file = read(longer);
    CHECK(file.format == 2);
    CHECK(file.time_base == midi::TimeBase{40, 25});
    CHECK(midi::file_bytes(file) == header("0002", "0000", "E728"));
}

TEST_CASE("MIDI file: a system exclusive message and a meta event end a running status") {
    CHECK(refusal(one_track("00903C40 00F0017F 003C00 00FF2F00")) == "midi_no_status");
    CHECK(refusal(one_track("00903C40 00FF0100 003C00 00FF2F00")) == "midi_no_status");
}

TEST_CASE("MIDI file: what is damaged is refused with its place") {
    const auto [content, name] = GENERATE(table<std::string, const char*>(
        {{"", "midi_empty"},
         {"RIFF", "midi_no_header"},
         {"MThd" + bytes("00000006 0000"), "midi_chunk_cut"},
         {"MThd" + bytes("00000004 00000001"), "midi_header"},
         {header("0003", "0001", "0060"), "midi_header"},
         {header("0001", "0001", "0000"), "midi_header"},
         {header("0001", "0001", "E600"), "midi_header"},
         {header("0001", "0001", "FF01"), "midi_header"},
         {header("0001", "0001", "E700"), "midi_header"},
         {header("0000", "0002", "0060"), "midi_too_many_tracks"},
         {header("0001", "0001", "0060"), "midi_track_count"},
         {one_track("00FF2F00") + chunk("MTrk", bytes("00FF2F00")), "midi_track_count"},
         {one_track("00FF2F00") + "*", "midi_not_a_chunk"},
         {one_track("00FF2F00") + "MTrk" + bytes("00000001"), "midi_chunk_cut"},
         {one_track("00903C"), "midi_event_cut"},
         {one_track("80"), "midi_event_cut"},
         {one_track("00"), "midi_event_cut"},
         {one_track("00FF"), "midi_event_cut"},
         {one_track("00FF01 05 4142"), "midi_event_cut"},
         {one_track("00F0 FFFFFF7F 00"), "midi_event_cut"},
         {one_track("8080808000 903C40"), "midi_long_number"},
         {one_track("003C40"), "midi_no_status"},
         {one_track("00F4"), "midi_unknown_status"},
         {one_track("00903C80"), "midi_data_byte"},
         {one_track("00FF5102 07A1 00FF2F00"), "midi_meta_length"},
         {one_track("00903C40"), "midi_no_end"},
         {one_track("00FF2F00 00903C40"), "midi_after_end"}}));
    CAPTURE(name);
    CHECK(refusal(content) == name);
}

TEST_CASE("MIDI file: meta events of a fixed length have it, others any") {
    const auto [type, length] = GENERATE(table<std::string, std::size_t>(
        {{"20", 1}, {"51", 3}, {"54", 5}, {"58", 4}, {"59", 2}, {"2F", 0}}));
    const auto track = [&, name = type](std::size_t bytes) {
        std::string event = "00FF" + name + (bytes < 10 ? "0" : "") + std::to_string(bytes);
        for (std::size_t i = 0; i < bytes; ++i)
            event += "01";
        return one_track(event + (name == "2F" ? "" : " 00FF2F00"));
    };
    CAPTURE(type);
    CHECK(refusal(track(length)) == "no error");
    CHECK(refusal(track(length + 1)) == "midi_meta_length");
    if (length > 0)
        CHECK(refusal(track(length - 1)) == "midi_meta_length");
    for (const char* const any : {"00", "01", "7F"})
        for (const char* const bytes : {"00", "0141", "024142"})
            CHECK(refusal(one_track(std::string("00FF") + any + bytes + " 00FF2F00"))
                  == "no error");
}

TEST_CASE("MIDI file: an error says the file and the byte") {
    const auto error = support::error_of([] { read(one_track("00903C40 00903C80")); });
    REQUIRE(error);
    CHECK(std::string(error->what())
          == "a.mid: the byte 80 at byte 29 is no data of an event, which goes up to 7F; export it "
             "again from the program that wrote it");
}

TEST_CASE("MIDI file: ticks as seconds, through the tempos of all tracks") {
    midi::File file{1, {100, 0}, {{{midi::tempo(200, 250'000)}, 200}, {{}, 0}}, {}};
    file.tracks[1].events = {midi::tempo(100, 1'000'000)};
    const midi::TempoMap map(file);
    CHECK(map.seconds(0) == Rational(0));
    CHECK(map.seconds(99) == Rational(99, 200));
    CHECK(map.seconds(101) == Rational(51, 100));
    CHECK(map.seconds(199) == Rational(149, 100));
    CHECK(map.seconds(201) == Rational(3, 2) + Rational(1, 400));
    CHECK(map.seconds(100) == Rational(1, 2)); // 120 quarter notes a minute before any tempo
    CHECK(map.seconds(200) == Rational(3, 2));
    CHECK(map.seconds(300) == Rational(7, 4));
    // Of two tempos at one time the later one in the file holds.
    file.tracks[1].events.push_back(midi::tempo(200, 2'000'000));
    CHECK(midi::TempoMap(file).seconds(300) == Rational(7, 2));
    file.format = 2;
    CHECK(midi::TempoMap(file, 1).seconds(300) == Rational(7, 2));
    CHECK(midi::TempoMap(file, 0).seconds(200) == Rational(1));
    file.time_base = {40, 25};
    CHECK(midi::TempoMap(file).seconds(1000) == Rational(1));
    file.time_base = {100, 29};
    CHECK(midi::TempoMap(file).seconds(3000) == Rational(1001, 1000));
}
