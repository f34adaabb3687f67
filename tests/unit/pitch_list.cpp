// Measured pitches in any order, and the scales and melodies made of them.

#include <sectio/interval/expression.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/pitch_list.hpp>
#include <sectio/scale/reading.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>

using namespace sectio;

namespace {

ListedPitch listed(const char* above, const char* half_width = nullptr) {
    ListedPitch pitch;
    pitch.above.figure = parse_interval(above);
    if (half_width)
        pitch.above.half_width = parse_interval(half_width);
    pitch.written = above;
    return pitch;
}

PitchList intervals() {
    PitchList list;
    list.name = "test";
    list.pitches = {listed("498c", "3c"), listed("1/1"), listed("-204c", "2c"), listed("498c")};
    return list;
}

std::string degrees(const Scale& scale) {
    std::string text;
    for (const Degree& degree : scale.degrees) {
        text += (text.empty() ? "" : " ") + to_expression(degree.interval);
        if (degree.uncertainty)
            text += "±" + to_expression(*degree.uncertainty);
    }
    return text;
}

} // namespace

TEST_CASE("A list becomes a scale that rises, each pitch once") {
    CHECK(degrees(to_scale(intervals())) == "-204c±2c 1/1 498c±3c");
    CHECK_FALSE(to_scale(intervals()).period);
    CHECK(degrees(to_scale(intervals(), 2)) == "1/1±2c 204c±2c 702c±4.1634c");
    CHECK(to_scale(intervals()).degrees[2].written == "498c");
    PitchList in_octaves = intervals();
    in_octaves.period = Interval::octave();
    CHECK(degrees(to_scale(in_octaves)) == "1/1 498c±3c 996c±2c");
    CHECK(support::name_of(support::error_of([] { to_scale(PitchList()); })) == "no_pitches");
}

TEST_CASE("Where frequencies are known the tonic is the pitch as it was written") {
    PitchList list = intervals();
    list.zero = parse_pitch("440Hz");
    for (ListedPitch& pitch : list.pitches)
        pitch.sounds = "440Hz";
    list.pitches[2].sounds = "391.1Hz";
    CHECK(to_scale(list).tonic == "391.1Hz"); // the lowest
    CHECK(to_scale(list, 1).tonic == "440Hz");
    CHECK(to_scale(list, 2).tonic == "391.1Hz");
    CHECK(to_scale(list, 1).degrees[2].written == "498c");
}

TEST_CASE("The tonic that was named is the pitch next to it, also where others lie lower") {
    PitchList list;
    list.name = "measured";
    list.tonic = "D4";
    list.zero = parse_pitch("D4");
    list.pitches = {listed("-498c"), listed("-3c"), listed("200c")};
    list.pitches[0].sounds = "A3";
    list.pitches[1].sounds = "D4-3c";
    list.period = Interval::octave();
    CHECK(to_scale(list).tonic == "D4-3c");
    CHECK(degrees(to_scale(list)) == "1/1 203c 705c");
    list.period.reset();
    CHECK(to_scale(list).tonic == "D4-3c");
    CHECK(degrees(to_scale(list)) == "-495c 1/1 203c");
    list.pitches[1] = listed("-51c");
    CHECK(to_scale(list).tonic == "A3");
    list.tonic.reset();
    list.pitches[1] = listed("-3c");
    CHECK(to_scale(list).tonic == "A3");
}

TEST_CASE("The period that closes a scale makes no difference to a melody, listed or not") {
    const auto of = [](const std::string& degrees, const char* period) {
        PitchList list = parse_pitches(degrees);
        list.period = parse_interval(period);
        std::vector<std::string> all;
        for (const WeightedPitch& note : to_melody(list).notes)
            all.push_back(to_expression(note.interval));
        return all;
    };
    CHECK(of("9/8,3/2,2/1", "2/1") == std::vector<std::string>{"1/1", "9/8", "3/2"});
    CHECK(of("9/8,3/2,2/1", "2/1") == of("9/8,3/2", "2/1"));
    CHECK(of("9/8,3/2", "3/1") == std::vector<std::string>{"1/1", "9/8", "3/2", "3/1"});
    CHECK(of("9/8,3/2,3/1", "3/1") == of("9/8,3/2", "3/1"));
    CHECK(of("9/8,3/2,2/1±3c", "2/1").size() == 4); // a pitch that was measured
}

TEST_CASE("A list becomes a melody in its own order") {
    PitchList list = intervals();
    list.pitches[1].weight = 3;
    list.pitches[3].ends_phrase = true;
    list.in_time = true;
    const Melody melody = to_melody(list);
    REQUIRE(melody.notes.size() == 4);
    CHECK(melody.in_time);
    CHECK(melody.notes[0].interval == parse_interval("498c"));
    CHECK(*melody.notes[0].uncertainty == parse_interval("3c"));
    CHECK(melody.notes[1].weight == Rational(3));
    CHECK(melody.notes[3].ends_phrase);
}
