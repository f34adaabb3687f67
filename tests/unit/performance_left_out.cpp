// What of a score or a MIDI file does not sound is counted under its reason, one by one.

#include <sectio/tuning/perform.hpp>

#include <catch2/catch.hpp>
#include <support/midi_ear.hpp>
#include <support/scores.hpp>

using namespace sectio;
using namespace sectio::tuning;
using support::attributes;
using support::note;

namespace {

using Counts = std::map<std::string, std::size_t>;

std::unique_ptr<score::NoteTuning> equal_53() {
    return score::tuning_by_division(EqualDivision(53), "C4");
}

Performance of_midi(std::vector<midi::Event> events) {
    midi::File file{0, {480, 0}, {}, {}};
    const midi::Ticks end = events.back().time;
    file.tracks.push_back({std::move(events), end});
    return performance_of(file, *equal_53(), Pitch::concert_a());
}

Performance of_score(const std::string& bars) {
    return performance_of(
        score::read_score(score::document_of(support::score({attributes() + bars}), "t")), {},
        *equal_53(), Pitch::concert_a());
}

/// Controllers and their values on channel 1, before a note that bends by half of its range.
Performance after(const std::vector<std::pair<int, int>>& controls) {
    std::vector<midi::Event> events;
    for (const auto& [number, value] : controls)
        events.push_back(midi::control(0, 0, number, value));
    events.push_back(midi::note_on(0, 0, 60, 90));
    events.push_back(midi::pitch_bend(5, 0, 12'288));
    events.push_back(midi::note_off(10, 0, 60));
    return of_midi(std::move(events));
}

int bend_range(const Performance& music) {
    for (const PlayedMessage& message : music.messages)
        if (message.event.kind() == midi::status::pitch_bend)
            return message.bend_range;
    return -1;
}

} // namespace

TEST_CASE("Left out: parameters that tune, and controllers that a file of ours cannot pass on") {
    CHECK(after({}).left_out.empty());
    // Registered parameters 1 and 2 tune; 0 is the bend range, 3FFF none.
    CHECK(after({{101, 0}, {100, 1}, {6, 64}}).left_out == Counts{{"registered parameters", 1}});
    CHECK(after({{101, 0}, {100, 2}, {6, 64}, {6, 65}}).left_out
          == Counts{{"registered parameters", 2}});
    CHECK(after({{101, 127}, {100, 127}, {6, 64}}).left_out.empty());
    CHECK(after({{6, 64}}).left_out.empty());
    CHECK(after({{99, 1}, {98, 2}, {6, 3}, {38, 4}}).left_out
          == Counts{{"parameters that are not registered", 2}});
    CHECK(after({{96, 0}, {97, 0}, {122, 0}}).left_out
          == Counts{{"controllers without meaning here", 3}});
    CHECK(after({{124, 0}, {125, 0}, {126, 1}, {127, 0}}).left_out == Counts{{"channel modes", 4}});
    const Performance kept = after({{123, 0}, {121, 0}, {7, 100}, {64, 0}});
    CHECK(kept.left_out.empty());
    CHECK(kept.messages.size() == 5); // with the bend
}

TEST_CASE("The bend range of a MIDI file is that of registered parameter 0, in cents") {
    CHECK(bend_range(after({})) == 200);
    CHECK(bend_range(after({{101, 0}, {100, 0}, {6, 12}})) == 1200);
    CHECK(bend_range(after({{100, 0}, {101, 0}, {6, 12}, {38, 50}})) == 1250);
    CHECK(bend_range(after({{101, 0}, {100, 0}, {38, 120}})) == 299); // 100 cents are a semitone
    CHECK(bend_range(after({{101, 0}, {100, 0}, {6, 12}, {101, 127}, {100, 127}, {6, 3}, {38, 4}}))
          == 1200);
    CHECK(bend_range(after({{101, 0}, {100, 0}, {99, 0}, {6, 12}, {38, 9}})) == 200);
    CHECK(bend_range(after({{101, 1}, {100, 0}, {6, 12}})) == 200); // parameter 128
    CHECK(bend_range(after({{101, 1}, {101, 0}, {100, 0}, {6, 7}})) == 700);
    CHECK(bend_range(after({{101, 0}, {100, 1}, {100, 0}, {6, 7}})) == 700);
}

TEST_CASE("Left out: what a score has that is not played") {
    CHECK(of_score(note("D", 4)).left_out.empty());
    const std::string cue = "<note><cue/><pitch><step>D</step><octave>4</octave></pitch>"
                            "<duration>1</duration></note>",
                      drum = "<note><unpitched/><duration>1</duration></note>",
                      jump = "<direction><direction-type><words>D.C.</words></direction-type>"
                             "<sound dacapo=\"yes\"/></direction>";
    const Performance music = of_score(note("D", 4) + cue + cue + drum + jump);
    CHECK(music.left_out
          == Counts{{"cue notes", 2},
                    {"da capo, dal segno and coda signs, not followed", 1},
                    {"notes without pitch", 1}});
    CHECK(music.notes.size() == 1);
}

TEST_CASE("Left out: notes that no key or no channel can sound, by bend and by messages") {
    Performance music;
    music.instruments = {{"p", {}, false}};
    music.pitches = {pitch_of_key(-1), pitch_of_key(0), pitch_of_key(127), pitch_of_key(128)};
    for (std::uint32_t pitch = 0; pitch < 4; ++pitch) {
        PlayedNote note;
        note.end = music.end = 10;
        note.pitch = pitch;
        music.notes.push_back(note);
    }
    for (const MessageKind kind : {MessageKind::octave_2, MessageKind::note_change}) {
        PerformOptions options;
        options.by = PerformBy::tuning;
        options.message = kind;
        const Performed played = perform(music, options);
        CHECK(played.left_out == Counts{{"notes beyond the keys of MIDI", 2}});
        CHECK(played.notes == 2);
    }
    CHECK(perform(music).left_out == Counts{{"notes beyond the keys of MIDI", 2}});
    music.notes = std::vector<PlayedNote>(17, music.notes[1]); // one key on all fifteen channels
    const Performed played = perform(music);
    CHECK(played.left_out == Counts{{"notes that sound on every channel already", 2}});
    CHECK(played.notes == 15);
    CHECK(played.channels == 15);
}
