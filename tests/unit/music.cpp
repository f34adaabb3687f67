// Scores and MIDI files as sound: what sounds when, how loud, and what is left out and said.

#include <sectio/base/limits.hpp>
#include <sectio/sound/loudness.hpp>
#include <sectio/sound/messages.hpp>
#include <sectio/sound/music_sound.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>
#include <support/intervals.hpp>
#include <support/scores.hpp>
#include <support/sound.hpp>

#include <algorithm>
#include <cmath>

using namespace sectio;
using namespace sectio::sound;
using support::attributes;
using support::cents_between;
using support::note;

namespace {

/// Events of one track in 53 equal steps from C4; 480 ticks are half a second at first.
tuning::Performance performed(std::vector<midi::Event> events) {
    midi::File file{0, {480, 0}, {}, {}};
    const midi::Ticks end = events.back().time;
    file.tracks.push_back({std::move(events), end});
    const auto tuning = score::tuning_by_division(EqualDivision(53), "C4");
    return tuning::performance_of(file, *tuning, Pitch::concert_a());
}

Music heard(std::vector<midi::Event> events) {
    return music_of(performed(std::move(events)));
}

Music heard_score(const std::vector<std::string>& measures) {
    const auto tuning = score::tuning_by_division(EqualDivision(53), "C4");
    return music_of(
        tuning::performance_of(score::read_score(score::document_of(support::score(measures), "t")),
                               {}, *tuning, Pitch::concert_a()));
}

std::string refusal(std::vector<midi::Event> events, const std::vector<Pitch>& drones = {}) {
    return support::name_of(
        support::error_of([&] { music_of(performed(std::move(events)), drones); }));
}

/// All samples, `block` at a time.
support::Sound samples_of(const Music& music, std::size_t block = 1000) {
    MusicSound sound(music);
    support::Sound all{sample_rate, {}};
    std::vector<float> samples(block);
    while (std::ssize(all.samples) < sound.frames()) {
        sound.next(samples);
        all.samples.insert(all.samples.end(), samples.begin(), samples.end());
    }
    return all;
}

/// Of a key in 53 equal steps, `steps` above C4.
double hz_of(int steps, double cents = 0) {
    return 440 * std::exp2(-9 / 12.0 + steps / 53.0 + cents / 1200);
}

Rational seconds(const Music& music, midi::Ticks time) {
    return music.times.seconds(time);
}

} // namespace

TEST_CASE("Music: times are exact where the tempo changes, and after it") {
    const Music music =
        heard({midi::note_on(0, 0, 60, 90), midi::note_off(480, 0, 60), midi::tempo(480, 700'001),
               midi::note_on(480, 0, 62, 90), midi::note_off(960, 0, 62), midi::tempo(961, 300'000),
               midi::note_on(1441, 0, 64, 90), midi::note_off(1921, 0, 64)});
    REQUIRE(music.notes.size() == 3);
    CHECK(seconds(music, music.notes[0].end) == Rational(1, 2));
    CHECK(seconds(music, music.notes[1].begin) == Rational(1, 2));
    CHECK(seconds(music, music.notes[1].end) == Rational(1'200'001, 1'000'000));
    // One tick of the middle tempo, then 480 of the last.
    CHECK(seconds(music, music.notes[2].begin)
          == Rational(1'200'001, 1'000'000) + Rational(700'001, 480'000'000) + Rational(3, 10));
    CHECK(music.frame(480) == 24'000);
    CHECK(music.frame(960) == 57'600); // 57600.048
    const Music later =
        heard({midi::tempo(0, 500015), midi::note_on(0, 0, 60, 90), midi::note_off(480, 0, 60)});
    CHECK(later.frame(480) == 24001); // 24000.72
    CHECK(music.seconds() == seconds(music, 1921) + Rational(3, 2));
}

TEST_CASE("Music: lasts until the note that ends last is silent") {
    const Music music = heard({midi::note_on(0, 0, 60, 90), midi::note_on(0, 0, 64, 90),
                               midi::note_off(480, 0, 64), midi::note_off(960, 0, 60)});
    CHECK(music.seconds() == Rational(5, 2));
}

TEST_CASE("Music: a bend may bring a note into reach, or out of it") {
    const Music music = heard({midi::pitch_bend(0, 0, 0), midi::note_on(0, 0, 127, 90),
                               midi::note_off(480, 0, 127), midi::pitch_bend(480, 0, 16'383),
                               midi::note_on(480, 0, 126, 90), midi::note_off(960, 0, 126)});
    REQUIRE(music.notes.size() == 1); // 12 543.9 Hz less two semitones
    CHECK(music.notes[0].end == 480);
    CHECK(music.left_out.at("notes too low or too high for a string") == 1);
}

TEST_CASE("Sounding tone: bent beyond what can be sounded it is silent, and comes back") {
    SoundingTone tone = SoundingTone::plucked({11'000, 2, 1});
    std::vector<float> samples(480); // a hundredth of a second
    const auto loudest = [&](double hz) {
        std::fill(samples.begin(), samples.end(), 0.0F);
        tone.set_hz(hz);
        tone.add_to(samples);
        return *std::max_element(samples.begin(), samples.end());
    };
    CHECK(loudest(11'000) > 0.5F);
    CHECK(loudest(16'500) == 0);
    CHECK(loudest(11'000) > 0.1F);
}

TEST_CASE("Music: ties sound once, repeats again") {
    const std::string tie = "<tie type=\"start\"/>", stop = "<tie type=\"stop\"/>";
    const Music music = heard_score({attributes() + note("E", 4, "", tie),
                                     note("E", 4, "", stop) + note("F", 4)
                                         + "<barline><repeat direction=\"backward\"/></barline>"});
    REQUIRE(music.notes.size() == 4);
    CHECK(seconds(music, music.notes[0].end) == Rational(1));
    CHECK(seconds(music, music.notes[2].begin) == Rational(3, 2));
    CHECK(music.pitch_of(music.notes[2]) == music.pitch_of(music.notes[0]));
    CHECK(music.left_out.empty());
}

TEST_CASE("Music: loudness goes as the square of the velocity") {
    const Music music = heard({midi::note_on(0, 0, 60, 127), midi::note_off(480, 0, 60),
                               midi::note_on(480, 0, 62, 64), midi::note_off(960, 0, 62)});
    CHECK(music.notes[0].level == 1);
    CHECK(music.notes[1].level == Approx(64.0 * 64 / 127 / 127));
}

TEST_CASE("Music: a damper pedal holds its own instrument's notes until it is lifted") {
    const Music music = heard(
        {midi::control(0, 0, 64, 127), midi::note_on(0, 0, 60, 90), midi::note_on(0, 1, 64, 90),
         midi::note_off(100, 0, 60), midi::note_off(100, 1, 64), midi::control(200, 1, 64, 0),
         midi::note_on(200, 0, 62, 90), midi::note_off(200, 0, 62), midi::control(300, 0, 64, 63),
         midi::note_on(400, 0, 60, 90), midi::note_off(500, 0, 60), midi::control(500, 0, 64, 64),
         midi::control(900, 0, 7, 9), midi::note_on(900, 0, 60, 90), midi::note_off(950, 0, 60),
         midi::note_on(1000, 1, 60, 90), midi::note_off(1010, 1, 60)});
    REQUIRE(music.notes.size() == 6);
    const std::vector<midi::Ticks> ends{300, 100, 300, 500, 1010, 1010};
    for (std::size_t i = 0; i < ends.size(); ++i) {
        CAPTURE(i);
        CHECK(music.notes[i].end == ends[i]);
    }
    CHECK(music.left_out
          == std::map<std::string, std::size_t>{{"controllers other than the damper pedal", 1}});
}

TEST_CASE("Music: what no string can do is left out and counted") {
    const Music music = heard(
        {midi::note_on(0, 0, 60, 90), midi::note_on(0, 0, 11, 90), midi::note_on(0, 0, 127, 90),
         midi::note_on(0, 9, 36, 90), midi::control(0, 9, 7, 90), midi::program(0, 0, 5),
         midi::Event{1, 0xD0, 0, "\x10"}, midi::note_on(10, 0, 61, 90), midi::note_off(10, 0, 61),
         midi::note_off(480, 0, 60), midi::note_off(480, 0, 11), midi::note_off(480, 0, 127),
         midi::note_off(480, 9, 36)});
    CHECK(music.notes.size() == 1);
    CHECK(music.left_out
          == std::map<std::string, std::size_t>{{"messages of pressure", 1},
                                                {"notes of no length", 1},
                                                {"notes too low or too high for a string", 2},
                                                {"percussion", 1}});
}

TEST_CASE("Music: too long, without notes, or over a drone out of reach it is refused") {
    const std::vector<midi::Event> note{midi::note_on(0, 0, 60, 90), midi::note_off(480, 0, 60)};
    CHECK(refusal(note) == "no error");
    CHECK(refusal({midi::note_on(0, 9, 60, 90), midi::note_off(480, 9, 60)})
          == "music_without_notes");
    CHECK(refusal({midi::tempo(0, 500'000)}) == "music_without_notes");
    CHECK(refusal(note, {support::pitch("D3"), support::pitch("C-2")})
          == "sound_pitch_out_of_range");
    // Two 480 ticks a second; all but a second and a half, which the tail lasts.
    constexpr midi::Ticks most = 960 * limits::music_seconds - 3 * 480;
    CHECK(refusal({note[0], midi::note_off(most, 0, 60)}) == "no error");
    CHECK(refusal({note[0], midi::note_off(most + 1, 0, 60)}) == "music_too_long");
}

TEST_CASE("Music: each note at the frequency of the scale, within 0.02 cents") {
    std::vector<midi::Event> events;
    for (int i = 0; i < 6; ++i) {
        events.push_back(midi::note_on(960 * i, 0, 55 + 4 * i, 100));
        events.push_back(midi::note_off(960 * i + 950, 0, 55 + 4 * i));
    }
    const Music music = heard(events);
    const support::Sound sound = samples_of(music);
    for (const MusicNote& note : music.notes) {
        const double hz = music.pitch_of(note).hertz_estimate();
        CAPTURE(hz);
        const double start = static_cast<double>(music.frame(note.begin)) / sample_rate;
        CHECK(
            std::abs(cents_between(support::measured_hz(sound, start + 0.05, 0.8, hz * 1.0005), hz))
            < 0.02);
    }
    CHECK(cents_between(music.pitch_of(music.notes[0]).hertz_estimate(), hz_of(-22)) // G3
          == Approx(0).margin(1e-6));
}

TEST_CASE("Music: its own bends move what sounds, and what begins while they hold") {
    const Music music = heard({midi::note_on(0, 0, 60, 90), midi::note_on(0, 1, 74, 90),
                               midi::pitch_bend(960, 0, 12'288), // half of two semitones
                               midi::note_off(1900, 0, 60), midi::note_on(1920, 0, 67, 90),
                               midi::note_off(2880, 0, 67), midi::note_off(2880, 1, 74)});
    REQUIRE(music.notes.size() == 3);
    CHECK(music.pitch_of(music.notes[2]) - music.pitches[music.notes[2].pitch]
          == support::interval("100c"));
    const support::Sound sound = samples_of(music);
    const auto off = [&](double start, double hz) {
        return std::abs(cents_between(support::measured_hz(sound, start, 0.7, hz * 1.0005), hz));
    };
    CHECK(off(0.1, hz_of(0)) < 0.02);
    CHECK(off(1.1, hz_of(0, 100)) < 0.02);
    CHECK(off(2.1, hz_of(31, 100)) < 0.02);
    CHECK(off(0.1, hz_of(62)) < 0.02); // the other instrument stays where it is
    CHECK(off(2.1, hz_of(62)) < 0.02);
}

TEST_CASE("Music: samples do not depend on the blocks they are asked for in") {
    const Music music = heard({midi::note_on(0, 0, 60, 90), midi::note_on(77, 0, 64, 50),
                               midi::pitch_bend(100, 0, 9000), midi::note_off(480, 0, 60),
                               midi::note_off(481, 0, 64)});
    const support::Sound one = samples_of(music, 100'000), many = samples_of(music, 997);
    double most = 0;
    for (std::size_t i = 0; i < 90'000; ++i)
        most = std::max(most, std::abs(one.samples[i] - many.samples[i]));
    CHECK(most < 1e-7);
}

TEST_CASE("Music: the loudest moment that could be makes the peak") {
    std::vector<midi::Event> events{midi::note_on(0, 0, 60, 127), midi::note_off(480, 0, 60)};
    CHECK(greatest_level(heard(events)) == string_level);
    // Half a second later the first has decayed when two others begin, one softer; at 960 all end.
    events = {midi::note_on(0, 0, 60, 127),   midi::note_on(480, 0, 62, 127),
              midi::note_on(480, 0, 64, 64),  midi::note_off(960, 0, 60),
              midi::note_off(960, 0, 62),     midi::note_off(960, 0, 64),
              midi::note_on(960, 0, 64, 127), midi::note_off(1000, 0, 64)};
    const double second = std::exp(-slowest_decay / 2) + 1 + 64.0 * 64 / 127 / 127;
    CHECK(greatest_level(heard(events)) == Approx(second * string_level).epsilon(1e-12));
    Music music = heard(events);
    music.drones = {support::pitch("C3")};
    CHECK(greatest_level(music) == Approx(second * string_level + drone_level).epsilon(1e-12));
    music.drones.push_back(support::pitch("G3")); // two have the power of one
    CHECK(greatest_level(music)
          == Approx(second * string_level + drone_level * std::sqrt(2)).epsilon(1e-12));
    const support::Sound sound = samples_of(music);
    CHECK(sound.peak(0, 100) <= peak);
    CHECK(sound.peak(0, 0.1) < peak / 8);
}

TEST_CASE("Music: a file has as many frames as its header says") {
    const Music music = heard({midi::note_on(0, 0, 60, 90), midi::note_off(481, 0, 60)});
    std::string bytes;
    double done = 0;
    write_music(
        music, [&](std::string_view piece) { bytes += piece; }, [&](double part) { done = part; });
    CHECK(done == 1);
    REQUIRE(music.frames() == 96'050);
    CHECK(bytes.size() == 44 + 3 * 96'050);
    // Half a second and 15 microseconds: 96000.72 frames with the tail; a chunk's length is even.
    const Music odd =
        heard({midi::tempo(0, 500'015), midi::note_on(0, 0, 60, 90), midi::note_off(480, 0, 60)});
    REQUIRE(odd.frames() == 96'001);
    bytes.clear();
    write_music(odd, [&](std::string_view piece) { bytes += piece; });
    CHECK(bytes.size() == 44 + 3 * 96'001 + 1);
}
