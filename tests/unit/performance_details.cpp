// Performances in their details: what is left out is counted, and what a file may not say is
// bounded.

#include <sectio/tuning/perform.hpp>

#include <catch2/catch.hpp>
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
    CHECK(after({{100, 1}, {101, 0}, {6, 64}}).left_out == Counts{{"registered parameters", 1}});
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
    CHECK(bend_range(after({{101, 0}, {100, 0}, {6, 12}, {38, 50}, {38, 20}})) == 1220);
    CHECK(bend_range(after({{100, 1}, {101, 0}, {6, 12}})) == 200); // parameter 1
    CHECK(bend_range(after({{101, 0}, {100, 0}, {6, 12}, {101, 127}, {100, 127}, {6, 3}, {38, 4}}))
          == 1200);
    CHECK(bend_range(after({{101, 0}, {100, 0}, {99, 0}, {6, 12}, {38, 9}})) == 200);
    CHECK(bend_range(after({{101, 1}, {100, 0}, {6, 12}})) == 200); // parameter 128
    CHECK(bend_range(after({{101, 1}, {101, 0}, {100, 0}, {6, 7}})) == 700);
    CHECK(bend_range(after({{101, 0}, {100, 1}, {100, 0}, {6, 7}})) == 700);
}

TEST_CASE("Notes of a MIDI file end by their own note-off, in their order, or with the file") {
    const Performance music = of_midi({midi::note_off(0, 0, 60), midi::note_on(0, 0, 60, 90),
                                       midi::note_on(10, 0, 60, 91), midi::note_on(15, 1, 64, 92),
                                       midi::note_off(20, 0, 60, 30), midi::note_on(30, 0, 60, 0),
                                       midi::note_on(40, 0, 62, 90), midi::note_off(50, 0, 62, 5)});
    REQUIRE(music.notes.size() == 4);
    CHECK(music.notes[0].end == 20);
    CHECK(music.notes[0].release == 30);
    CHECK(music.notes[1].end == 30);
    CHECK(music.notes[1].release == 64); // ended by a note-on of velocity 0, which says none
    CHECK(music.notes[2].end == 50);
    CHECK(music.notes[3].release == 5);
}

TEST_CASE("A key of a MIDI file that the tuning lacks is listed with its beat, counted from 1") {
    midi::File file{0, {480, 0}, {}, {}};
    file.tracks.push_back({{midi::note_on(479, 0, 63, 90), midi::note_on(480, 1, 63, 90),
                            midi::note_off(500, 0, 63), midi::note_off(500, 1, 63)},
                           500});
    const auto tuning =
        score::tuning_by_scale(parse_degrees("9/8, 5/4, 4/3, 3/2, 5/3, 15/8", ""), "D4");
    const Performance music = performance_of(file, *tuning, Pitch::concert_a());
    REQUIRE(music.unmatched.size() == 2);
    CHECK(music.names.measures == std::vector<std::string>{"at beat 1", "at beat 2"});
    CHECK(music.names.parts[music.unmatched[1].part] == "channel 2");
    CHECK(music.pitches[music.notes[0].pitch] == pitch_of_key(63));
}

TEST_CASE(
    "Grace notes share half of their note at most, sound together in a chord, and end a bar") {
    const auto grace = [](const char* step, const char* chord = "") {
        return std::string("<note><grace/>") + chord + "<pitch><step>" + step
               + "</step><octave>4</octave></pitch></note>";
    };
    const auto times = [](const Performance& music) {
        std::vector<std::pair<midi::Ticks, midi::Ticks>> list;
        for (const PlayedNote& note : music.notes)
            list.emplace_back(note.begin, note.end);
        return list;
    };
    using Times = std::vector<std::pair<midi::Ticks, midi::Ticks>>;
    const std::string five = grace("C") + grace("D") + grace("E") + grace("F") + grace("G");
    const Performance many = of_score(five + note("A", 4));
    REQUIRE(many.time_base.ticks == 480);
    CHECK(times(many) == Times{{0, 48}, {48, 96}, {96, 144}, {144, 192}, {192, 240}, {240, 480}});
    CHECK(times(of_score(grace("C") + grace("E", "<chord/>") + note("A", 4)))
          == Times{{0, 60}, {0, 60}, {60, 480}});
    CHECK(times(of_score(note("A", 4) + grace("C"))) == Times{{0, 480}, {420, 480}});
    CHECK(times(of_score(note("A", 4) + grace("C") + grace("D")))
          == Times{{0, 480}, {360, 420}, {420, 480}});
    const std::string rest = "<note><rest/><duration>1</duration></note>";
    CHECK(times(of_score(note("A", 4) + grace("C") + rest + grace("D") + note("E", 4)))
          == Times{{0, 480}, {420, 480}, {960, 1020}, {1020, 1440}});
    // The first of the second chord is a cue note and does not sound.
    const std::string cue = "<note><cue/><pitch><step>D</step><octave>4</octave></pitch>"
                            "<duration>1</duration></note>",
                      with_it = "<note><chord/><pitch><step>F</step><octave>4</octave></pitch>"
                                "<duration>1</duration></note>";
    CHECK(times(of_score(grace("C") + note("A", 4) + cue + with_it))
          == Times{{0, 60}, {60, 480}, {480, 960}});
    CHECK(times(of_score(note("A", 4) + grace("C") + cue + with_it))
          == Times{{0, 480}, {480, 540}, {540, 960}});
}

TEST_CASE("Tempo and loudness stay within what a MIDI file says, and hold over bar lines") {
    const Performance music = performance_of(
        score::read_score(score::document_of(
            support::score({attributes() + "<sound tempo=\"1\" dynamics=\"500\"/>" + note("D", 4),
                            note("E", 4) + "<sound dynamics=\"1\"/>" + note("F", 4)}),
            "t")),
        {}, *equal_53(), Pitch::concert_a());
    REQUIRE(music.notes.size() == 3);
    CHECK(music.notes[0].velocity == 127);
    CHECK(music.notes[1].velocity == 127);
    CHECK(music.notes[2].velocity == 1); // 0.9 of 90
    CHECK(midi::microseconds_of(music.words.at(0).events.at(0)) == (1 << 24) - 1);
}

TEST_CASE("A note may have a loudness of its own, which holds for it alone") {
    const auto loud = [](std::string_view percent, const std::string& note) {
        return "<note dynamics=\"" + std::string(percent) + "\"" + note.substr(5);
    };
    const Performance music =
        of_score("<sound dynamics=\"110\"/>" + note("D", 4) + loud("50", note("E", 4))
                 + note("F", 4) + loud("71.11", note("G", 4)) + loud("0", note("A", 4))
                 + loud("999", note("B", 4)) + loud("low", note("C", 5)));
    std::vector<int> velocities;
    for (const PlayedNote& note : music.notes)
        velocities.push_back(note.velocity);
    CHECK(velocities == std::vector{99, 45, 99, 64, 1, 127, 99});
}

TEST_CASE("Marks count from their offset, those of directions only where it is for playing") {
    const std::string notes = note("D", 4) + note("E", 4) + note("F", 4) + note("G", 4);
    const auto heard = [&](const std::string& marks) {
        const Performance music = of_score(marks + notes);
        std::string text;
        for (const midi::Event& event : music.words.at(0).events)
            text += std::to_string(event.time * 4 / music.end) + " ";
        for (const PlayedNote& note : music.notes)
            text += note.velocity == 45 ? 'p' : 'f';
        return text;
    };
    const auto direction = [](const std::string& offset, const std::string& more) {
        return "<direction><direction-type><metronome><beat-unit>half</beat-unit><per-minute>60"
               "</per-minute></metronome></direction-type>"
               + offset + more + "</direction>";
    };
    const std::string soft = "<sound dynamics=\"50\"/>";
    CHECK(heard(direction("<offset sound=\"yes\">2</offset>", soft)) == "2 ffpp");
    CHECK(heard(direction("<offset sound=\"no\">2</offset>", soft)) == "0 pppp");
    CHECK(heard(direction("<offset>2</offset>", soft)) == "0 pppp");
    CHECK(heard(direction("<offset sound=\"yes\">1</offset>", "") + soft) == "1 pppp");
    CHECK(heard("<sound tempo=\"60\" dynamics=\"50\"><offset>3</offset></sound>") == "3 fffp");
    // Never beyond the measure.
    CHECK(heard(direction("<offset sound=\"yes\">-2</offset>", soft)) == "0 pppp");
    CHECK(heard("<sound tempo=\"60\" dynamics=\"50\"><offset>9</offset></sound>") == "4 ffff");
    CHECK(heard("<sound tempo=\"60\"><offset>late</offset></sound>") == "0 ffff");
}

TEST_CASE("A metronome mark of any note value counts, and of its words the first number") {
    const auto tempo = [](const std::string& unit, const std::string& words) {
        const Performance music = of_score(
            "<direction><direction-type><metronome><beat-unit>" + unit + "</beat-unit><per-minute>"
            + words + "</per-minute></metronome></direction-type></direction>" + note("D", 4));
        const auto& events = music.words.at(0).events;
        return events.empty() ? 0 : midi::microseconds_of(events[0]);
    };
    CHECK(tempo("quarter", "c. 96") == 625'000);
    CHECK(tempo("quarter", "96-104") == 625'000);
    CHECK(tempo("quarter", "ca 62.5.") == 960'000);
    CHECK(tempo("128th", "1920") == 1'000'000);
    CHECK(tempo("maxima", "7.5") == 250'000);
    CHECK(tempo("quarter", "fast") == 0);
}

TEST_CASE("Of several instruments of a part the first says whether it is percussion") {
    const auto percussion = [](const std::string& channels) {
        std::string text = support::score({attributes() + note("D", 4)});
        text.replace(text.find("</part-name>"), 12, "</part-name>" + channels);
        return performance_of(score::read_score(score::document_of(text, "t")), {}, *equal_53(),
                              Pitch::concert_a())
            .instruments.at(0)
            .percussion;
    };
    const auto on = [](const std::string& channel) {
        return "<midi-instrument id=\"i" + channel + "\"><midi-channel>" + channel
               + "</midi-channel></midi-instrument>";
    };
    CHECK_FALSE(percussion(on("1") + on("10")));
    CHECK(percussion(on("10") + on("1")));
}

TEST_CASE("Times finer than ticks are rounded to the nearest") {
    const Performance music =
        performance_of(score::read_score(score::document_of(
                           support::score({"<attributes><divisions>16001</divisions></attributes>"
                                           + note("D", 4) + note("E", 4)}),
                           "t")),
                       {}, *equal_53(), Pitch::concert_a());
    REQUIRE(music.time_base.ticks == 20'160);
    REQUIRE(music.notes.size() == 2);
    CHECK(music.notes[0].end == 1); // 1.26
    CHECK(music.notes[1].end == 3); // 2.52
}

TEST_CASE(
    "A bend range reaches a semitone beyond the music's own bends, part semitones counted whole") {
    const auto said = [](const Performance& music) {
        const Performed played = perform(music);
        for (const midi::Event& event : played.file.tracks.back().events)
            if (event.kind() == midi::status::control && event.byte(0) == 6)
                return event.byte(1);
        return -1;
    };
    CHECK(said(after({{101, 0}, {100, 0}, {6, 2}, {38, 50}})) == 4);
    CHECK(said(after({{101, 0}, {100, 0}, {6, 3}, {38, 0}})) == 4);
    CHECK(said(after({{101, 0}, {100, 0}, {6, 127}, {38, 0}})) == 96); // the most there is
}

TEST_CASE("Pressure on one key goes to the key and channel that its note sounds on") {
    // In five equal steps E lies 480 cents above C, nearest to F.
    midi::File file{0, {480, 0}, {}, {}};
    file.tracks.push_back(
        {{midi::note_on(0, 0, 60, 90), midi::note_on(0, 0, 64, 90),
          midi::Event{5, 0xA0, 0, "\x40\x4D"}, midi::note_off(9, 0, 60), midi::note_off(9, 0, 64)},
         9});
    const auto five = score::tuning_by_division(EqualDivision(5), "C4");
    const Performed played = perform(performance_of(file, *five, Pitch::concert_a()));
    int pressed = 0, channel = -1;
    for (const midi::Event& event : played.file.tracks.back().events) {
        if (event.begins_note() && event.byte(0) == 65)
            channel = event.channel();
        if (event.kind() != midi::status::key_pressure)
            continue;
        ++pressed;
        CHECK(event.channel() == channel);
        CHECK(event.byte(0) == 65);
        CHECK(event.byte(1) == 77);
    }
    CHECK(pressed == 1);
}

TEST_CASE("A tie does not reach over another note, nor over a note that ends it") {
    const std::string tie = "<tie type=\"start\"/>", stop = "<tie type=\"stop\"/>";
    CHECK(of_score(note("E", 4, "", tie) + note("F", 4) + note("E", 4, "", stop)).notes.size()
          == 3);
    const Performance ended = of_score(note("E", 4, "", tie) + note("E", 4, "", stop)
                                       + note("E", 4, "", stop) + note("F", 4));
    REQUIRE(ended.notes.size() == 3);
    CHECK(ended.notes[0].end == 960);
}

TEST_CASE("A tie leads from a later voice of its bar to an earlier one") {
    const std::string tie = "<tie type=\"start\"/><voice>2</voice>", stop = "<tie type=\"stop\"/>";
    const Performance tied =
        of_score(note("F", 4) + note("E", 4, "", stop) + "<backup><duration>2</duration></backup>"
                 + note("E", 4, "", tie));
    REQUIRE(tied.notes.size() == 2);
    CHECK(tied.notes[0].end + tied.notes[1].end == (1 + 2) * 480);
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
