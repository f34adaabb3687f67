// Tunings read from messages: what the instrument stores, and the scale that it is.

#include <sectio/scale/scale_file_text.hpp>
#include <sectio/tuning/messages.hpp>
#include <sectio/tuning/retuning.hpp>
#include <sectio/tuning/stored_tuning.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>
#include <support/intervals.hpp>

using namespace sectio;
using namespace sectio::tuning;
using support::interval;

namespace {

TuningMessage model(MessageKind kind, int program = 0) {
    TuningMessage message;
    message.kind = kind;
    message.program = program;
    return message;
}

/// The scale that comes back from messages of `kind`, read from `key` up.
Scale through(const Scale& scale, MessageKind kind, const KeyMapping& mapping,
              std::optional<int> key = 62) {
    const auto table = key_table(tuned(scale, {"D4", std::nullopt}), mapping);
    const auto tunings = stored_tunings(retune(table, model(kind)).messages);
    REQUIRE(tunings.size() == 1);
    return scale_of(tunings[0], "read", key);
}

void check_within(const Scale& read, const Scale& wanted, const Interval& bound) {
    REQUIRE(read.degrees.size() == wanted.degrees.size());
    for (std::size_t i = 0; i < read.degrees.size(); ++i) {
        CAPTURE(read.degrees[i].written);
        CHECK(absolute(read.degrees[i].interval - wanted.degrees[i].interval) <= bound);
    }
    CHECK(read.period == wanted.period);
}

/// The tonic's word and the degree's are each right to half a unit.
const Interval unit = Interval::from_steps(1, 196'608);

Scale just() {
    return parse_degrees("9/8,5/4,4/3,3/2,5/3,15/8", "");
}

/// Keys 40 to 83 as 0, 204, 386 and 702 cents in every octave, key 60 being C4.
StoredTuning four_a_period() {
    static const std::array degrees{interval("1/1"), interval("204c"), interval("386c"),
                                    interval("702c")};
    StoredTuning tuning;
    for (int key = 40; key < 84; ++key)
        tuning.keys[static_cast<std::size_t>(key)] =
            pitch_of_key(60) + Integer((key - 40) / 4 - 5) * Interval::octave()
            + degrees[static_cast<std::size_t>(key % 4)];
    return tuning;
}

std::vector<Interval> degrees_from(const StoredTuning& tuning, int tonic) {
    std::vector<Interval> intervals;
    for (const Degree& degree : scale_of(tuning, "", tonic).degrees)
        intervals.push_back(degree.interval);
    return intervals;
}

} // namespace

TEST_CASE("Stored tuning: a dump comes back within half a unit of every word") {
    const Scale read = through(just(), MessageKind::bulk_dump, {62, {}});
    check_within(read, just(), unit);
    CHECK(read.tonic == "D4");
    CHECK(read.degrees[1].written == "203.912353515625c"); // 9/8 is 203.910
}

TEST_CASE("Stored tuning: every kind of message comes back") {
    using enum MessageKind;
    for (const MessageKind kind : {note_change, key_dump, note_change_in_bank})
        check_within(through(just(), kind, nearest_keys(just(), 62)), just(), unit);
    const Scale chromatic = parse_degrees("16/15,9/8,6/5,5/4,4/3,45/32,3/2,8/5,5/3,9/5,15/8", "");
    const KeyMapping keys = nearest_keys(chromatic, 62);
    for (const MessageKind kind : {octave_dump_1, octave_1})
        check_within(through(chromatic, kind, keys), chromatic, interval("1c"));
    for (const MessageKind kind : {octave_dump_2, octave_2})
        check_within(through(chromatic, kind, keys), chromatic, interval("0.0123c"));
}

TEST_CASE("Stored tuning: other periods than the octave are found") {
    Scale tritave = parse_degrees("25/21,9/7,7/5,5/3", "");
    tritave.period = interval("3/1");
    check_within(through(tritave, MessageKind::bulk_dump, {62, {}}), tritave, unit);
    Scale odd = parse_degrees("200c,450c", "");
    odd.period = interval("777c");
    const Scale read = through(odd, MessageKind::bulk_dump, {62, {}});
    REQUIRE(read.degrees.size() == 3);
    REQUIRE(read.period);
    CHECK(absolute(*read.period - *odd.period) <= unit);
}

TEST_CASE("Stored tuning: keys that do not rise are brought into a period of fifths exactly") {
    Scale fifths = parse_degrees("100c,300c,500c", "");
    fifths.period = interval("3/2");
    // No octave is among the keys' distances, and most lie a fifth or more from the tonic.
    const Scale read = through(fifths, MessageKind::bulk_dump, {62, {0, 9, 2, 7}});
    REQUIRE(read.period == interval("3/2"));
    CHECK(read.degrees.size() == 4);
    for (const Degree& degree : read.degrees) {
        CAPTURE(degree.written);
        CHECK(parse_interval(degree.written) == degree.interval);
    }
}

TEST_CASE("Stored tuning: where the keys end within a period, lower ones say the rest") {
    StoredTuning tuning;
    const std::array<const char*, 3> places{"0c", "200c", "450c"};
    for (int key = 99; key < 128;
         ++key) // 126 begins a period, and 125 is the last of the one below
        tuning.keys[static_cast<std::size_t>(key)] =
            pitch_of_key(60) + interval(places[static_cast<std::size_t>(key % 3)])
            + interval("300c") * ((key - 99) / 3) + interval("477c") * ((key - 99) / 3);
    const Scale scale = scale_of(tuning, "read", 126);
    REQUIRE(scale.degrees.size() == 3);
    CHECK(scale.degrees[2].interval == interval("450c"));
}

TEST_CASE("Stored tuning: keys that do not repeat are a set of pitches") {
    Scale bells = parse_degrees("1 x 100c,250c,777c", "");
    bells.period.reset();
    const Scale read = through(bells, MessageKind::note_change, {62, {}}, std::nullopt);
    check_within(read, bells, unit);
    CHECK(read.tonic == "D4");
}

TEST_CASE("Stored tuning: middle C is the tonic where nothing is said, and a silent key is none") {
    // Two keys below D4's, two degrees lower: 5/3 within the octave below, B flat to B.
    const Scale read = through(just(), MessageKind::bulk_dump, {62, {}}, std::nullopt);
    CHECK(read.tonic->text().starts_with("B3-15.6"));
    const auto table = key_table(tuned(just(), {"D4", std::nullopt}), nearest_keys(just(), 62));
    const auto tunings = stored_tunings(retune(table, model(MessageKind::bulk_dump)).messages);
    CHECK(support::name_of(support::error_of([&] { scale_of(tunings[0], "", 63); }))
          == "tuning_key_silent");
    CHECK(scale_of(tunings[0], "").tonic->text().front() == 'C');
}

TEST_CASE("Stored tuning: banks, programs and channels are kept apart, changes added up") {
    const auto change = [](int program, int key, const char* pitch) {
        TuningMessage message = model(MessageKind::note_change, program);
        message.keys = {{key, *FrequencyWord::nearest(support::pitch(pitch))}};
        return message;
    };
    TuningMessage octave = model(MessageKind::octave_1);
    octave.offsets[0] = 10;
    TuningMessage again = octave;
    again.offsets[0] = 20;
    const auto tunings = stored_tunings(
        {change(0, 60, "C4+10c"), change(1, 60, "C4-10c"), octave, change(0, 61, "C#4"), again});
    REQUIRE(tunings.size() == 3);
    CHECK(tunings[0].keys[60]);
    CHECK(tunings[0].keys[61]);
    CHECK_FALSE(tunings[0].keys[62]);
    CHECK(tunings[1].program == 1);
    // "Scale/octave messages do not accumulate": the second counts from 12 equal steps again.
    CHECK(*tunings[2].keys[60] == pitch_of_key(60) + interval("20c"));
}

TEST_CASE("Stored tuning: each channel has the last one that was sent to it") {
    const auto sent = [](std::uint16_t channels, int offset) {
        TuningMessage message = model(MessageKind::octave_1);
        message.channels = channels;
        message.offsets[0] = offset;
        return message;
    };
    const auto tunings =
        stored_tunings({sent(0b0111, 10), model(MessageKind::note_change, 0), sent(0b1010, 20)});
    REQUIRE(tunings.size() == 3);
    CHECK(tunings[0].channels == 0b0101);
    CHECK(*tunings[0].keys[60] == pitch_of_key(60) + interval("10c"));
    CHECK(tunings[1].channels == 0);
    CHECK(tunings[2].channels == 0b1010);
    CHECK(*tunings[2].keys[60] == pitch_of_key(60) + interval("20c"));
    CHECK(stored_tunings({sent(1, 10), sent(0b11, 20)}).size() == 1);
    CHECK(stored_tunings({sent(0, 10)}).empty());
}

TEST_CASE("Scale file text: reads back as the same scale") {
    Scale scale = just();
    scale.name = "a \"name\" \\ of\ttwo\nlines";
    scale.source = "Sundhall";
    scale.tonic = "D4";
    scale.reference = "A4 = 442 Hz";
    scale.degrees[0].name = "ground";
    scale.degrees[1].note = "E";
    scale.degrees[2].uncertainty = interval("3c");
    scale.closing.name = "top";
    scale.remarks = {"one", "two"};
    const Scale read = read_scale_file(scale_file_text(scale), "text");
    CHECK(read.name == scale.name);
    CHECK(read.source == scale.source);
    CHECK(read.tonic == scale.tonic);
    CHECK(read.reference == scale.reference);
    CHECK(read.period == scale.period);
    CHECK(read.remarks == scale.remarks);
    CHECK(read.closing.name == "top");
    REQUIRE(read.degrees.size() == scale.degrees.size());
    for (std::size_t i = 0; i < read.degrees.size(); ++i) {
        CHECK(read.degrees[i].interval == scale.degrees[i].interval);
        CHECK(read.degrees[i].written == scale.degrees[i].written);
        CHECK(read.degrees[i].name == scale.degrees[i].name);
        CHECK(read.degrees[i].note == scale.degrees[i].note);
        CHECK(read.degrees[i].uncertainty == scale.degrees[i].uncertainty);
    }
}

TEST_CASE("Stored tuning: three periods show that they repeat, one key fewer does not") {
    StoredTuning tuning;
    const std::array<const char*, 3> places{"0c", "200c", "450c"};
    for (int key = 60; key < 69; ++key) {
        const int at = key - 60;
        tuning.keys[static_cast<std::size_t>(key)] =
            pitch_of_key(60) + interval(places[static_cast<std::size_t>(at % 3)])
            + interval("777c") * (at / 3);
    }
    const Scale repeats = scale_of(tuning, "read", 60);
    REQUIRE(repeats.period);
    CHECK(*repeats.period == interval("777c"));
    CHECK(repeats.degrees.size() == 3);
    tuning.keys[68].reset();
    CHECK_FALSE(scale_of(tuning, "read", 60).period);
}

TEST_CASE("A stored tuning has all degrees from whichever octave they are counted") {
    const StoredTuning tuning = four_a_period();
    const std::vector from_second{interval("1/1"), interval("316c"), interval("814c"),
                                  interval("1018c")};
    for (const int tonic : {42, 62, 78, 82}) { // above 82 one key is tuned
        CAPTURE(tonic);
        CHECK(degrees_from(tuning, tonic) == from_second);
    }
    CHECK(degrees_from(tuning, 80).size() == 4);
    CHECK(degrees_from(tuning, 83).size() == 4);
    CHECK(scale_of(tuning, "", 83).period == Interval::octave());
}

TEST_CASE("A degree that one octave lacks is taken from another") {
    StoredTuning tuning = four_a_period();
    const auto all = degrees_from(tuning, 60);
    tuning.keys[61].reset();
    CHECK(degrees_from(tuning, 60) == all);
    for (int key = 61; key < 84; key += 4)
        tuning.keys[static_cast<std::size_t>(key)].reset();
    CHECK(degrees_from(tuning, 60) == all); // of the keys below
    for (int key = 41; key < 61; key += 4)
        tuning.keys[static_cast<std::size_t>(key)].reset();
    CHECK(degrees_from(tuning, 60).size() == 3);
}
