// What receivers are told before a performance begins.

#include <sectio/tuning/perform.hpp>

#include <catch2/catch.hpp>
#include <support/intervals.hpp>
#include <support/midi_ear.hpp>

#include <algorithm>
#include <functional>

using namespace sectio;
using namespace sectio::tuning;
using sectio::tuning::Instrument;

namespace {

/// Each pitch on an instrument of its own where `apart`, at once or one after the other.
Performance of_pitches(const std::vector<Pitch>& pitches, bool apart) {
    Performance music;
    music.pitches = pitches;
    music.instruments = std::vector<Instrument>(apart ? pitches.size() : 1, {"p", {}, false});
    for (std::uint32_t i = 0; i < pitches.size(); ++i) {
        PlayedNote note;
        note.begin = apart ? 0 : 10 * midi::Ticks{i};
        note.end = music.end = note.begin + 10;
        note.pitch = i;
        note.instrument = static_cast<std::uint16_t>(apart ? i : 0);
        music.notes.push_back(note);
    }
    return music;
}

Performed by_note_changes(const Performance& music) {
    PerformOptions options;
    options.by = PerformBy::tuning;
    options.message = MessageKind::note_change;
    return perform(music, options);
}

std::size_t count_events(const Performed& played,
                         const std::function<bool(const midi::Event&)>& is) {
    const auto& events = played.file.tracks.back().events;
    return static_cast<std::size_t>(std::count_if(events.begin(), events.end(), is));
}

bool is_exclusive(const midi::Event& event) {
    return event.status == midi::status::system_exclusive;
}

} // namespace

TEST_CASE("Channels that share a program of tuning have the keys of all of them there") {
    const Interval up = support::interval("10c");
    const Performed played =
        by_note_changes(of_pitches({pitch_of_key(60) + up, pitch_of_key(62) - up}, true));
    CHECK(played.channels == 2);
    CHECK(count_events(played, is_exclusive) == 1);
    const support::Heard heard = support::heard(midi::file_bytes(played.file));
    REQUIRE(heard.notes.size() == 2);
    CHECK(heard.notes[0].key == Approx(60.1).margin(0.0001));
    CHECK(heard.notes[1].key == Approx(61.9).margin(0.0001));
}

TEST_CASE("A pitch beyond all keys does not decide which message tunes the others") {
    PerformOptions options;
    options.by = PerformBy::tuning;
    const Interval up = support::interval("10c");
    for (const int beyond : {-1, 128, 140}) {
        CAPTURE(beyond);
        const Performed played =
            perform(of_pitches({pitch_of_key(60) + up, pitch_of_key(beyond) + up}, false), options);
        const support::Heard heard = support::heard(midi::file_bytes(played.file));
        REQUIRE(heard.notes.size() == 1);
        CHECK(heard.notes[0].key == Approx(60.1).margin(0.001));
        CHECK(played.left_out.size() == 1);
    }
}

TEST_CASE("Single notes are changed 64 in a message, and no bend range is said without bends") {
    std::vector<Pitch> pitches;
    for (int key = 20; key < 85; ++key)
        pitches.push_back(pitch_of_key(key) + support::interval("10c"));
    const auto says_range = [](const midi::Event& event) {
        return event.kind() == midi::status::control && event.byte(0) == 100 && event.byte(1) == 0;
    };
    const Performed more = by_note_changes(of_pitches(pitches, false));
    CHECK(count_events(more, is_exclusive) == 2);
    CHECK(count_events(more, says_range) == 0);
    pitches.pop_back();
    CHECK(count_events(by_note_changes(of_pitches(pitches, false)), is_exclusive) == 1);
    // By bend the range is said on the channels that are used.
    CHECK(count_events(perform(of_pitches({pitch_of_key(60)}, false)), says_range) == 1);
}

TEST_CASE("What scaling the music's own bends is off counts as the error of notes they bend") {
    Performance music = of_pitches({pitch_of_key(60), pitch_of_key(62)}, false);
    constexpr int middle = 8192;
    music.messages = {{0, midi::pitch_bend(0, 0, middle + 1000), 200},
                      {0, midi::pitch_bend(5, 0, middle - 8000), 1200}};
    // 1000 of 8192 whole tones are 166.67 of 8192 octaves: 167, 0.0488 cents too high.
    const Performed scaled = by_note_changes(music);
    CHECK(scaled.worst_error.cents(4) == "0.0488");
    CHECK(100 * support::heard(midi::file_bytes(scaled.file)).notes[0].key
          == Approx(6024.463).margin(0.001));
    // A whole tone of range ends the second bend at 200 of its 1171.875 cents.
    PerformOptions narrow;
    narrow.bend_range = 2;
    CHECK(perform(music, narrow).worst_error.cents(3) == "971.875");
    narrow.channels = ChannelUse::zone; // whose manager bends an octave
    CHECK(perform(music, narrow).worst_error.cents(4) == "0.0488");
}
