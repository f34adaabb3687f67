// Scores and MIDI files played in a tuning, heard by a reader of the tests' own.

#include <sectio/tuning/perform.hpp>
#include <sectio/tuning/play_order.hpp>

#include <support/errors.hpp>
#include <support/intervals.hpp>
#include <support/midi_ear.hpp>
#include <support/scores.hpp>

#include <cmath>
#include <set>

using namespace sectio;
using namespace sectio::tuning;
using sectio::tuning::Instrument;
using support::attributes;
using support::heard;
using support::Heard;
using support::note;

namespace {

std::unique_ptr<score::NoteTuning> just() {
    return score::tuning_by_scale(parse_degrees("9/8, 5/4, 4/3, 3/2, 5/3, 15/8", ""), "D4");
}

struct Played {
    Performance music;
    Performed result;
    Heard heard;
};

Played played(const Performance& music, const PerformOptions& options = {}) {
    Performed result = perform(music, options);
    const std::string bytes = midi::file_bytes(result.file);
    return {music, std::move(result), heard(bytes)};
}

Played played(const std::string& score, const PerformOptions& options = {}) {
    const auto tuning = just();
    return played(performance_of(score::read_score(score::document_of(score, "t")), {}, *tuning,
                                 Pitch::concert_a()),
                  options);
}

Played played_midi(std::vector<midi::Event> events, const score::NoteTuning& tuning,
                   const PerformOptions& options = {}) {
    midi::File file{0, {480, 0}, {}, {}};
    const midi::Ticks end = events.back().time;
    file.tracks.push_back({std::move(events), end});
    return played(performance_of(file, tuning, Pitch::concert_a()), options);
}

/// Cents of a note from a key of 12 equal steps.
double cents_from(const support::HeardNote& note, int key) {
    return 100 * (note.key - key);
}

void nothing_moves(const Heard& heard) {
    for (const support::HeardNote& note : heard.notes) {
        CHECK(note.end >= note.begin);
        CHECK(note.moved < 1e-9);
    }
}

std::string repeat(const std::string& inside) {
    return "<barline>" + inside + "</barline>";
}

const PerformOptions in_zone{ChannelUse::zone, {}};
constexpr double unit = 200.0 / 8192; ///< cents of one step of the bend

} // namespace

TEST_CASE("A score's notes sound in the scale, and none disturbs another") {
    const std::string chord = note("D", 4) + note("F", 4, "1").insert(6, "<chord/>")
                              + note("A", 4).insert(6, "<chord/>") + note("E", 4);
    for (const PerformOptions& options : {PerformOptions{}, in_zone}) {
        const Played music = played(support::score({attributes() + chord}), options);
        REQUIRE(music.heard.notes.size() == 4);
        // Just intervals from D4 (key 62): 5/4 386.314, 3/2 701.955, 9/8 203.910 cents.
        CHECK(cents_from(music.heard.notes[0], 62) == Approx(0).margin(unit / 2));
        CHECK(cents_from(music.heard.notes[1], 62) == Approx(386.3137).margin(unit / 2));
        CHECK(cents_from(music.heard.notes[2], 62) == Approx(701.9550).margin(unit / 2));
        CHECK(cents_from(music.heard.notes[3], 62) == Approx(203.9100).margin(unit / 2));
        CHECK(music.heard.notes[3].begin == music.heard.ticks);
        nothing_moves(music.heard);
        CHECK(music.result.notes == 4);
        CHECK(music.result.worst_error <= support::interval("0.0123c"));
        CHECK(music.result.crowded.empty());
        CHECK(music.heard.zone == (options.channels == ChannelUse::zone));
    }
}

TEST_CASE("The largest error is that of the worst note, exactly") {
    const Played music = played(support::score({attributes() + note("E", 4)}));
    // 9/8 lies 3.910 cents above E: 160 steps of 200/8192 cents are 3.90625.
    CHECK(music.result.worst_error
          == absolute(support::interval("9/8 - 2of12") - Interval::from_steps(160, 6 * 8192)));
}

TEST_CASE("Tied notes are one note, over bar lines and repeats too") {
    const std::string tie = "<tie type=\"start\"/>", stop = "<tie type=\"stop\"/>";
    const Played music =
        played(support::score({attributes() + note("E", 4, "", tie), note("E", 4, "", stop + tie),
                               note("E", 4, "", stop) + note("E", 4)}));
    REQUIRE(music.heard.notes.size() == 2);
    CHECK(music.heard.notes[0].end == 3 * music.heard.ticks);
    CHECK(music.heard.notes[1].begin == 3 * music.heard.ticks);
}

TEST_CASE("A tie goes on where only its first note bears the sign, in each voice of its own") {
    const auto of = [](const std::string& voice, const std::string& tie, const std::string& sign) {
        return note("F", 4, "1",
                    "<voice>" + voice + "</voice>" + sign + "<notations>" + tie + "</notations>");
    };
    const std::string start = "<tied type=\"start\"/>", stop = "<tied type=\"stop\"/>";
    const std::string sharp = "<accidental>sharp</accidental>";
    const std::string back = "<backup><duration>1</duration></backup>";
    const Played one = played(support::score(
        {attributes() + of("1", start, sharp), of("1", stop + start, ""), of("1", stop, "")}));
    REQUIRE(one.heard.notes.size() == 1);
    CHECK(one.heard.notes[0].end - one.heard.notes[0].begin == 3 * 480);

    // Two voices strike one pitch and hold it over the bar line for one and for two quarters.
    const Played two = played(
        support::score({attributes() + of("1", start, sharp) + back + of("2", start, sharp),
                        of("1", stop, "") + back + of("2", stop + start, ""), of("2", stop, "")}));
    REQUIRE(two.heard.notes.size() == 2);
    CHECK(two.heard.notes[0].end + two.heard.notes[1].end == (2 + 3) * 480);
}

TEST_CASE("Repeats and endings are played out") {
    using Order = std::vector<std::size_t>;
    const auto bars = [](const std::vector<score::Bar>& list) {
        Order order;
        for (const PlayedBar& played : play_order(list))
            order.push_back(played.bar);
        return order;
    };
    const score::Bar plain, begins{{}, {}, true}, back{{}, {}, false, 2}, thrice{{}, {}, false, 3};
    const score::Bar first{{}, {}, false, 2, 1, true}, second{{}, {}, false, 0, 2, true};
    CHECK(bars({plain, back, plain}) == Order{0, 1, 0, 1, 2});
    CHECK(bars({plain, begins, thrice, plain}) == Order{0, 1, 2, 1, 2, 1, 2, 3});
    CHECK(bars({plain, first, second, plain}) == Order{0, 1, 0, 2, 3});
    CHECK(bars({back, back}) == Order{0, 0, 1, 1});
    const score::Bar both{{}, {}, false, 2, 3, true}, third{{}, {}, false, 0, 4, true};
    CHECK(bars({plain, both, third}) == Order{0, 1, 0, 1, 0, 2});
    CHECK(bars({}) == Order{});
    // Signs of repeat that only one part has hold for all; the longest part gives a bar's length.
    score::Score parts;
    parts.bars = {{{0, 1}, {4, 1}, true},
                  {{4, 1}, {7, 1}},
                  {{0, 1}, {3, 1}},
                  {{3, 1}, {7, 1}, false, 3, 2, true}};
    parts.parts.resize(2);
    parts.parts[0].end_bar = parts.parts[1].first_bar = 2;
    parts.parts[1].end_bar = 4;
    const std::vector<score::Bar> common = common_bars(parts);
    REQUIRE(common.size() == 2);
    CHECK(common[0].repeat_begins);
    CHECK(common[0].end == score::QuarterNotes(4, 1));
    CHECK_FALSE(common[1].repeat_begins);
    CHECK(common[1].end == score::QuarterNotes(4, 1));
    CHECK(common[1].times == 3);
    CHECK(common[1].passes == 2);
    CHECK(common[1].ending_ends);
    std::swap(parts.bars[0], parts.bars[2]);
    std::swap(parts.bars[1], parts.bars[3]);
    CHECK(common_bars(parts)[0].repeat_begins);
    CHECK(common_bars(parts)[1].ending_ends);
    const std::string end = repeat("<repeat direction=\"backward\"/>");
    const Played music = played(support::score({attributes() + note("D", 4) + end, note("E", 4)}));
    CHECK(music.heard.notes.size() == 3);
    CHECK(music.heard.notes[1].key == Approx(62));
}

TEST_CASE("Tempo, loudness, program and grace notes are played as far as the score says them") {
    std::string score = support::score(
        {attributes()
         + "<direction><direction-type><metronome><beat-unit>half</beat-unit><per-minute>60"
           "</per-minute></metronome></direction-type></direction>"
         + "<note><grace/><pitch><step>A</step><octave>4</octave></pitch></note>" + note("D", 4)
         + "<sound tempo=\"90\" dynamics=\"50\"/>" + note("E", 4)});
    score.replace(score.find("</part-name>"), 12,
                  "</part-name><midi-instrument id=\"i\"><midi-program>16</midi-program>"
                  "</midi-instrument>");
    const Played music = played(score);
    REQUIRE(music.heard.notes.size() == 3);
    const int ticks = music.heard.ticks;
    CHECK(music.heard.tempos == std::vector<std::pair<long, int>>{{0, 500'000}, {ticks, 666'667}});
    CHECK(music.heard.notes[0].end == music.heard.notes[1].begin);
    CHECK(music.heard.notes[1].begin == ticks / 8);
    CHECK(music.heard.notes[1].velocity == 90);
    CHECK(music.heard.notes[2].velocity == 45);
    CHECK(music.heard.notes[2].begin == ticks);
    for (const auto& note : music.heard.notes)
        CHECK(note.program == 15);
}

TEST_CASE("A part goes on with the program that the score changes to") {
    const auto change = [](const char* id, const char* program, const char* only = "") {
        return "<sound" + std::string(only) + "><midi-instrument id=\"" + id + "\"><midi-program>"
               + program + "</midi-program></midi-instrument></sound>";
    };
    std::string score =
        support::score({attributes() + note("D", 4) + change("j", "7") + note("E", 4)
                        + change("i", "41") + note("F", 4) + change("i", "1", " time-only=\"2\"")
                        + note("G", 4) + repeat("<repeat direction=\"backward\"/>")});
    score.replace(score.find("</part-name>"), 12,
                  "</part-name><score-instrument id=\"i\"/><score-instrument id=\"j\"/>"
                  "<midi-instrument id=\"i\"><midi-program>16</midi-program></midi-instrument>");
    std::vector<int> programs;
    for (const auto& note : played(score).heard.notes)
        programs.push_back(note.program);
    CHECK(programs == std::vector<int>{15, 15, 40, 40, 40, 40, 40, 0});
}

TEST_CASE("A note that the tuning lacks sounds in 12 equal steps and is listed") {
    const Played music = played(support::score({attributes() + note("F", 4)}));
    REQUIRE(music.heard.notes.size() == 1);
    CHECK(music.heard.notes[0].key == Approx(65));
    REQUIRE(music.music.unmatched.size() == 1);
    CHECK(music.music.names.measures[music.music.unmatched[0].measure] == "1");
}

TEST_CASE("A MIDI file sounds in the tuning; percussion, tempo and controllers stay") {
    const auto tuning = score::tuning_by_division(EqualDivision(53), "C4");
    const Played music = played_midi(
        {midi::tempo(0, 400'000), midi::program(0, 2, 46), midi::control(0, 2, 7, 80),
         midi::note_on(0, 2, 64, 70), midi::note_on(0, 2, 67, 70), midi::note_on(0, 9, 36, 100),
         midi::note_off(480, 2, 64), midi::note_off(480, 2, 67), midi::note_off(480, 9, 36)},
        *tuning);
    REQUIRE(music.heard.notes.size() == 3);
    CHECK(cents_from(music.heard.notes[0], 60) == Approx(18 * 1200.0 / 53).margin(unit / 2));
    CHECK(cents_from(music.heard.notes[1], 60) == Approx(31 * 1200.0 / 53).margin(unit / 2));
    CHECK(music.heard.notes[2].key == Approx(36));
    CHECK(music.heard.notes[2].channel == 9);
    for (const std::size_t i : {0U, 1U}) {
        CHECK(music.heard.notes[i].program == 46);
        CHECK(music.heard.notes[i].volume == 80);
    }
    CHECK(music.heard.tempos == std::vector<std::pair<long, int>>{{0, 400'000}});
    nothing_moves(music.heard);
}

TEST_CASE("A channel that changes hands gets the other instrument's program and volume") {
    const auto tuning = score::tuning_by_division(EqualDivision(53), "C4");
    std::vector<midi::Event> events{midi::program(0, 0, 10), midi::program(0, 1, 20),
                                    midi::control(0, 0, 7, 50)};
    midi::Ticks now = 0;
    for (int i = 0; i < 60; ++i, now += 10)
        for (const int channel : {0, 1}) {
            events.push_back(midi::note_on(now, channel, 50 + i % 12, 70));
            events.push_back(midi::note_off(now + 5, channel, 50 + i % 12));
        }
    std::stable_sort(events.begin(), events.end(),
                     [](const auto& a, const auto& b) { return a.time < b.time; });
    const Played music = played_midi(events, *tuning);
    REQUIRE(music.heard.notes.size() == 120);
    std::size_t first = 0;
    for (const auto& note : music.heard.notes) {
        const bool tenth = note.program == 10;
        first += tenth ? 1 : 0;
        CHECK((tenth || note.program == 20));
        CHECK(note.volume == (tenth ? 50 : 100));
    }
    CHECK(first == 60);
    nothing_moves(music.heard);
}

TEST_CASE("A pedal holds a note's channel until it is lifted") {
    const auto tuning = score::tuning_by_division(EqualDivision(53), "C4");
    std::vector<midi::Event> events{midi::control(0, 0, 64, 127)};
    for (int i = 0; i < 12; ++i) {
        events.push_back(midi::note_on(i, 0, 60 + i, 70));
        events.push_back(midi::note_off(i, 0, 60 + i));
    }
    events.push_back(midi::control(20, 0, 64, 0));
    const Played music = played_midi(events, *tuning);
    std::set<int> channels;
    for (const auto& note : music.heard.notes)
        channels.insert(note.channel);
    CHECK(channels.size() == 12); // twelve different deviations in 53 steps, all held
    CHECK(music.result.crowded.empty());
}

TEST_CASE("The music's own bends go with the tuning's") {
    const auto tuning = score::tuning_by_division(EqualDivision(53), "C4");
    const Played music = played_midi({midi::note_on(0, 0, 64, 70), midi::pitch_bend(10, 0, 12'288),
                                      midi::note_off(20, 0, 64), midi::note_on(30, 0, 67, 70),
                                      midi::note_off(40, 0, 67)},
                                     *tuning);
    REQUIRE(music.heard.notes.size() == 2);
    CHECK(100 * music.heard.notes[0].moved == Approx(100).margin(unit)); // half of two semitones
    CHECK(cents_from(music.heard.notes[1], 60) == Approx(31 * 1200.0 / 53 + 100).margin(unit));
}

TEST_CASE("Notes beyond the channels sound and are listed with their errors") {
    const auto tuning = score::tuning_by_division(EqualDivision(53), "C4");
    std::vector<midi::Event> events;
    for (int i = 0; i < 20; ++i)
        events.push_back(midi::note_on(0, i < 10 ? 0 : 1, 50 + i, 70));
    for (int i = 0; i < 20; ++i)
        events.push_back(midi::note_off(480, i < 10 ? 0 : 1, 50 + i));
    const Played music = played_midi(events, *tuning);
    CHECK(music.heard.notes.size() == 20);
    CHECK(music.result.notes == 20);
    CHECK(music.result.channels == 15);
    REQUIRE(music.result.crowded.size() == 5);
    nothing_moves(music.heard);
    Interval worst;
    for (const CrowdedNote& note : music.result.crowded)
        worst = std::max(worst, absolute(note.error));
    CHECK(music.result.worst_error == worst);
}

TEST_CASE("No note sounds on another instrument's channel, however few are left") {
    const auto tuning = score::tuning_by_division(EqualDivision(53), "C4");
    std::vector<midi::Event> events{midi::program(0, 0, 74), midi::program(0, 1, 90)};
    for (int i = 0; i < 20; ++i) // fifteen bends at once: 12 keys, and three that bend themselves
        events.push_back(midi::note_on(0, 0, 40 + i, 70));
    Performance music = performance_of(midi::File{0, {480, 0}, {{std::move(events), 480}}, {}},
                                       *tuning, Pitch::concert_a());
    for (std::uint32_t i = 0; i < 20; ++i) // each a bend of its own
        music.pitches[music.notes[i].pitch] =
            pitch_of_key(music.notes[i].key) + Interval::from_cents(Rational(int(i)));
    PlayedNote other = music.notes.back();
    other.instrument = 1;
    music.notes.push_back(other);
    for (const PerformBy by : {PerformBy::bend, PerformBy::tuning}) {
        PerformOptions options;
        options.by = by;
        if (by == PerformBy::tuning) // as many instruments as channels, and one more
            for (std::uint16_t i = 0; i < 20; ++i)
                music.notes[i].instrument = i < 9 ? i : static_cast<std::uint16_t>(i % 6 + 10);
        music.notes.back().instrument = by == PerformBy::tuning ? 16 : 1;
        music.instruments.resize(17, {"p", {}, false});
        const Performed result = perform(music, options);
        CHECK(result.left_out
              == std::map<std::string, std::size_t>{
                  {"notes for which other instruments leave no channel", 1}});
        CHECK(result.notes == 20);
        for (const CrowdedNote& note : result.crowded)
            CHECK(note.instrument != music.notes.back().instrument);
    }
}

TEST_CASE("A file that is tuned already is not tuned again unsaid") {
    const auto tuning = score::tuning_by_division(EqualDivision(53), "C4");
    const auto tune = support::score({attributes() + note("C", 4) + note("E", 4) + note("G", 4)});
    const auto again = [&](PerformBy by) {
        PerformOptions options;
        options.by = by;
        const Performance music = performance_of(score::read_score(score::document_of(tune, "t")),
                                                 {}, *tuning, Pitch::concert_a());
        CHECK(music.begun_bent == 0);
        return performance_of(perform(music, options).file, *tuning, Pitch::concert_a());
    };
    CHECK(again(PerformBy::bend).begun_bent == 2); // C does not deviate
    CHECK(again(PerformBy::bend).left_out.empty());
    const Performance tuned = again(PerformBy::tuning);
    CHECK(tuned.begun_bent == 0);
    CHECK(tuned.left_out.at("messages that tune") == 1);
    CHECK(perform(tuned).worst_error < support::interval("0.02c"));
    for (const midi::Track& track : perform(tuned).file.tracks)
        for (const midi::Event& event : track.events)
            CHECK(event.status != midi::status::system_exclusive);
}

TEST_CASE("A zone has one instrument, and leaves channel 10 to percussion") {
    const auto tuning = score::tuning_by_division(EqualDivision(53), "C4");
    const auto two = [&] {
        played_midi({midi::note_on(0, 0, 60, 1), midi::note_on(0, 1, 64, 1),
                     midi::note_off(1, 0, 60), midi::note_off(1, 1, 64)},
                    *tuning, in_zone);
    };
    CHECK(support::name_of(support::error_of(two)) == "perform_zone_instruments");
    std::vector<midi::Event> events{midi::note_on(0, 9, 36, 70)};
    for (int i = 0; i < 8; ++i)
        events.push_back(midi::note_on(0, 0, 60 + i, 70));
    for (int i = 0; i < 8; ++i)
        events.push_back(midi::note_off(9, 0, 60 + i));
    events.push_back(midi::note_off(9, 9, 36));
    const Played music = played_midi(events, *tuning, in_zone);
    std::set<int> channels;
    for (const auto& note : music.heard.notes)
        channels.insert(note.channel);
    CHECK(channels == std::set<int>{1, 2, 3, 4, 5, 6, 7, 8, 9});
    nothing_moves(music.heard);
}

TEST_CASE("Files of pieces and bends beyond reach are refused") {
    const auto tuning = score::tuning_by_division(EqualDivision(53), "C4");
    const midi::File pieces{2, {480, 0}, {}, {}};
    CHECK(support::name_of(
              support::error_of([&] { performance_of(pieces, *tuning, Pitch::concert_a()); }))
          == "perform_pieces");
    for (const int range : {0, 97}) {
        PerformOptions options;
        options.bend_range = range;
        CHECK(support::name_of(support::error_of(
                  [&] { played(support::score({attributes() + note("E", 4)}), options); }))
              == "perform_bend_range");
    }
}

namespace {

PerformOptions by_messages(MessageKind kind) {
    PerformOptions options;
    options.by = PerformBy::tuning;
    options.message = kind;
    return options;
}

} // namespace

TEST_CASE("By tuning messages a score sounds in the scale, each key tuned before it") {
    const std::string chord = note("D", 4) + note("F", 4, "1").insert(6, "<chord/>")
                              + note("A", 4).insert(6, "<chord/>") + note("E", 4);
    for (const MessageKind kind : {MessageKind::note_change, MessageKind::octave_1,
                                   MessageKind::octave_2, MessageKind::bulk_dump}) {
        const double half = kind == MessageKind::octave_1   ? 0.5
                            : kind == MessageKind::octave_2 ? 0.0062
                                                            : 0.0031;
        const Played music = played(support::score({attributes() + chord}), by_messages(kind));
        CAPTURE(row_of(kind).name);
        REQUIRE(music.heard.notes.size() == 4);
        CHECK(cents_from(music.heard.notes[0], 62) == Approx(0).margin(half));
        CHECK(cents_from(music.heard.notes[1], 62) == Approx(386.3137).margin(half));
        CHECK(cents_from(music.heard.notes[2], 62) == Approx(701.9550).margin(half));
        CHECK(cents_from(music.heard.notes[3], 62) == Approx(203.9100).margin(half));
        nothing_moves(music.heard);
        CHECK(music.result.channels == 1);
        CHECK(music.result.retunings == 0);
        CHECK(1200 * music.result.worst_error.estimate().value <= half);
    }
}

TEST_CASE("By tuning messages two tunings of one key sound on two channels, together too") {
    const auto tuning = score::tuning_by_division(EqualDivision(53), "C4");
    const std::string both = note("F", 4, "1") + note("G", 4, "-1").insert(6, "<chord/>");
    const auto music_of = [&](const std::string& body) {
        return performance_of(
            score::read_score(score::document_of(support::score({attributes() + body}), "t")), {},
            *tuning, Pitch::concert_a());
    };
    for (const MessageKind kind : {MessageKind::note_change, MessageKind::octave_2}) {
        const Played music = played(music_of(both), by_messages(kind));
        REQUIRE(music.heard.notes.size() == 2);
        // Pythagorean F sharp and G flat, 27 and 26 of 53 steps.
        CHECK(cents_from(music.heard.notes[0], 60) == Approx(27 * 1200.0 / 53).margin(0.0062));
        CHECK(cents_from(music.heard.notes[1], 60) == Approx(26 * 1200.0 / 53).margin(0.0062));
        CHECK(music.result.channels == 2);
        CHECK(music.result.crowded.empty());
        nothing_moves(music.heard);
    }
}

TEST_CASE("By tuning messages silent keys are retuned where no channel is free, and others said") {
    // Sixteen instruments, so that no channel is spare: their keys take turns in two tunings.
    Performance music;
    music.pitches = {pitch_of_key(60) + support::interval("10c"),
                     pitch_of_key(60) - support::interval("10c")};
    const auto add = [&](int instrument, midi::Ticks begin, midi::Ticks end, int pitch) {
        PlayedNote note;
        note.begin = begin;
        note.end = end;
        note.instrument = static_cast<std::uint16_t>(instrument);
        note.pitch = static_cast<std::uint32_t>(pitch);
        music.notes.push_back(note);
    };
    for (int instrument = 0; instrument < 15; ++instrument) {
        music.instruments.push_back({"p", {}, false});
        add(instrument, 0, 10, 0);
    }
    for (int instrument = 0; instrument < 15; ++instrument)
        add(instrument, 20, 30, 1);
    add(0, 30, 40, 0);
    for (const MessageKind kind : {MessageKind::note_change, MessageKind::octave_2}) {
        music.end = 40;
        Performance crowded = music;
        const Played turns = played(music, by_messages(kind));
        REQUIRE(turns.heard.notes.size() == 31);
        for (const auto& note : turns.heard.notes)
            CHECK(cents_from(note, 60) == Approx(note.begin == 20 ? -10 : 10).margin(0.0062));
        nothing_moves(turns.heard);
        CHECK(turns.result.retunings == 16);
        CHECK(turns.result.crowded.empty());
        crowded.notes.push_back(crowded.notes.back()); // 30 to 40: idle channels take it
        crowded.notes.back().pitch = 1;
        CHECK(played(crowded, by_messages(kind)).result.crowded.empty());
        for (int instrument = 1; instrument < 15; ++instrument)
            for (int i = 0; i < 2; ++i) {
                crowded.notes.push_back(crowded.notes.back());
                crowded.notes.back().instrument = static_cast<std::uint16_t>(instrument);
            }
        const Played full = played(crowded, by_messages(kind));
        CHECK(full.result.notes == 31 + 14); // each channel sounds the key once
        CHECK(full.result.left_out.at("notes that sound on every channel already")
                  + full.result.left_out.at("notes for which other instruments leave no channel")
              == 15);
        nothing_moves(full.heard);
    }
}

TEST_CASE("By tuning messages an octave note that sounds is not retuned for another octave") {
    Performance music;
    music.instruments = std::vector<Instrument>(15, {"p", {}, false});
    music.pitches = {pitch_of_key(60) + support::interval("10c"),
                     pitch_of_key(72) - support::interval("10c")};
    for (std::uint16_t instrument = 0; instrument < 15; ++instrument)
        for (std::uint32_t pitch = 0; pitch < 2; ++pitch) {
            PlayedNote note;
            note.end = 10;
            note.instrument = instrument;
            note.pitch = pitch;
            music.notes.push_back(note);
        }
    music.end = 10;
    const Played forced = played(music, by_messages(MessageKind::octave_2));
    CHECK(forced.result.notes == 30);
    nothing_moves(forced.heard);
    CHECK(forced.result.crowded.size() >= 15); // with their errors
    CHECK(absolute(forced.result.worst_error) > support::interval("19.9c"));
    PerformOptions options;
    options.by = PerformBy::tuning;
    const Played chosen = played(music, options);
    CHECK(chosen.result.message == MessageKind::note_change); // octaves would not do
    CHECK(chosen.result.crowded.empty());
    CHECK(chosen.result.worst_error <= support::interval("0.0031c"));
}

TEST_CASE("By tuning messages the music's own bends stay, and pedals hold their tuning") {
    const auto tuning = score::tuning_by_division(EqualDivision(53), "C4");
    const Played music = played_midi({midi::note_on(0, 0, 64, 70), midi::pitch_bend(10, 0, 12'288),
                                      midi::note_off(20, 0, 64), midi::note_on(30, 0, 67, 70),
                                      midi::note_off(40, 0, 67)},
                                     *tuning, by_messages(MessageKind::note_change));
    REQUIRE(music.heard.notes.size() == 2);
    CHECK(100 * music.heard.notes[0].moved == Approx(100).margin(0.01));
    CHECK(cents_from(music.heard.notes[1], 60) == Approx(31 * 1200.0 / 53 + 100).margin(0.01));
    PerformOptions range = by_messages(MessageKind::note_change);
    range.bend_range = 2;
    CHECK(support::name_of(support::error_of(
              [&] { played(support::score({attributes() + note("E", 4)}), range); }))
          == "perform_bend_only");
}

TEST_CASE(
    "By tuning messages a channel's change keeps its other notes, and pedalled ones are said") {
    Performance music;
    music.instruments = std::vector<Instrument>(15, {"p", {}, false});
    music.pitches = {pitch_of_key(60) + support::interval("10c"),
                     pitch_of_key(60) - support::interval("10c"),
                     pitch_of_key(62) + support::interval("5c")};
    const auto add = [&](std::uint16_t instrument, midi::Ticks begin, midi::Ticks end,
                         std::uint32_t pitch) {
        PlayedNote note;
        note.begin = begin;
        note.end = end;
        note.instrument = instrument;
        note.pitch = pitch;
        music.notes.push_back(note);
    };
    for (std::uint16_t instrument = 0; instrument < 15; ++instrument)
        add(instrument, 0, instrument == 0 ? 10 : 100, 0); // the others sound throughout
    add(0, 20, 30, 1);
    add(0, 40, 50, 2); // tuned for the first time after a change
    music.end = 100;
    for (const MessageKind kind : {MessageKind::note_change, MessageKind::octave_2}) {
        const Played plain = played(music, by_messages(kind));
        REQUIRE(plain.heard.notes.size() == 17);
        CHECK(cents_from(plain.heard.notes[15], 60) == Approx(-10).margin(0.0062));
        CHECK(cents_from(plain.heard.notes[16], 62) == Approx(5).margin(0.0062));
        CHECK(plain.result.crowded.empty());
        nothing_moves(plain.heard);
        Performance pedalled = music;
        pedalled.messages.push_back({0, midi::control(0, 0, 64, 127)});
        CHECK(played(pedalled, by_messages(kind)).result.crowded.size() == 1);
    }
}
