// A scale on the 128 keys: rows of keys, anchors, and the messages that say them.

#include <sectio/tuning/messages.hpp>
#include <sectio/tuning/retuning.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>
#include <support/intervals.hpp>

#include <array>

using namespace sectio;
using namespace sectio::tuning;
using support::interval;

namespace {

Scale just() {
    return parse_degrees("9/8,5/4,4/3,3/2,5/3,15/8", "");
}

/// Keys of D4 by `mapping`.
KeyTable on_d4(const Scale& scale, const KeyMapping& mapping) {
    return key_table(tuned(scale, {"D4", std::nullopt}), mapping);
}

/// A key a degree, the tonic on `anchor`.
KeyMapping a_key_a_degree(int anchor) {
    return {anchor, {}};
}

TuningMessage model(MessageKind kind) {
    TuningMessage message;
    message.kind = kind;
    return message;
}

std::string refusal(const KeyTable& table, MessageKind kind) {
    return support::name_of(support::error_of([&] { retune(table, model(kind)); }));
}

} // namespace

TEST_CASE("Key table: a key a degree, up and down from the anchor") {
    const KeyTable table = on_d4(just(), a_key_a_degree(62));
    REQUIRE(table[62]);
    CHECK(table[62]->pitch == pitch_of_key(62));
    CHECK(table[64]->pitch == pitch_of_key(62) + interval("5/4"));
    CHECK(table[64]->at == DegreeAt{2, 0});
    CHECK(table[69]->pitch == pitch_of_key(74)); // seven keys up, an octave
    CHECK(table[61]->pitch == pitch_of_key(50) + interval("15/8"));
    CHECK(table[61]->at == DegreeAt{6, -1});
}

TEST_CASE("Key table: each degree on the key nearest to it, the others left alone") {
    const KeyTable table = on_d4(just(), nearest_keys(just(), 62));
    CHECK(table[66]->at == DegreeAt{2, 0});
    CHECK_FALSE(table[65]);
    CHECK(table[78]->pitch == pitch_of_key(74) + interval("5/4"));
}

TEST_CASE("Key table: a row as written may go beyond the period, and leave keys out") {
    const KeyMapping row = parse_mapping("1, -, 3, 8", 62);
    CHECK(row.row == std::vector<std::optional<int>>{0, std::nullopt, 2, 7});
    const KeyTable table = on_d4(just(), row);
    CHECK_FALSE(table[63]);
    CHECK(table[65]->pitch == pitch_of_key(74)); // the eighth degree is the octave
    CHECK(table[68]->pitch == pitch_of_key(74) + interval("5/4"));
    for (const char* wrong : {"", "0", "1,,2", "1;2", "1,-2", "1,2,", "123456"}) {
        CAPTURE(wrong);
        CHECK(support::name_of(support::error_of([&] { parse_mapping(wrong, 60); }))
              == "tuning_mapping");
    }
}

TEST_CASE("Key table: a row goes on below its anchor, a period each time") {
    const KeyTable table = on_d4(just(), parse_mapping("1,3,5", 62));
    const std::array<DegreeAt, 7> from_56{
        {{0, -2}, {2, -2}, {4, -2}, {0, -1}, {2, -1}, {4, -1}, {0, 0}}};
    for (std::size_t i = 0; i < from_56.size(); ++i) {
        CAPTURE(i);
        REQUIRE(table[56 + i]);
        CHECK(table[56 + i]->at == from_56[i]);
    }
    CHECK(table[59]->pitch == pitch_of_key(50));
    CHECK(table[58]->pitch == pitch_of_key(38) + interval("3/2"));
    const KeyTable nearest = on_d4(just(), nearest_keys(just(), 62));
    CHECK(nearest[50]->at == DegreeAt{0, -1});
    CHECK(nearest[49]->at == DegreeAt{6, -2});
    CHECK_FALSE(nearest[51]);
    CHECK(nearest[52]->at == DegreeAt{1, -1});
    CHECK(nearest[61]->at == DegreeAt{6, -1});
}

TEST_CASE("Key table: a row has a key for each of the 128 at most") {
    std::string row = "1";
    for (int i = 1; i < 128; ++i)
        row += ",-";
    CHECK(parse_mapping(row, 60).row.size() == 128);
    CHECK(support::name_of(support::error_of([&] { parse_mapping(row + ",-", 60); }))
          == "tuning_mapping");
}

TEST_CASE("Key table: a row of pitches that do not repeat stands once") {
    Scale bells = just();
    bells.period.reset();
    const KeyTable table = on_d4(bells, parse_mapping("1,2", 62));
    for (std::size_t key = 54; key < 72; ++key) {
        CAPTURE(key);
        CHECK(table[key].has_value() == (key == 62 || key == 63));
    }
}

TEST_CASE("Key table: pitches that do not repeat lie on their keys alone") {
    Scale bells = just();
    bells.period.reset();
    const KeyTable table = on_d4(bells, a_key_a_degree(62));
    CHECK_FALSE(table[61]);
    CHECK(table[68]);
    CHECK_FALSE(table[69]);
    CHECK(support::name_of(support::error_of([&] { nearest_keys(bells, 62); }))
          == "tuning_keys_without_octave");
}

TEST_CASE("Key table: two degrees on one key are refused") {
    const Scale close = parse_degrees("9/8,10/9 + 81/80 + 20c", "");
    CHECK(support::name_of(support::error_of([&] { nearest_keys(close, 62); }))
          == "tuning_key_taken");
    const Scale high = parse_degrees("1180c", ""); // nearest to the octave's key
    CHECK(support::name_of(support::error_of([&] { nearest_keys(high, 62); }))
          == "tuning_key_taken");
}

TEST_CASE("Retuning: a dump has all keys, and leaves alone what sounds no degree") {
    const Retuning answer =
        retune(on_d4(just(), nearest_keys(just(), 62)), model(MessageKind::bulk_dump));
    REQUIRE(answer.messages.size() == 1);
    const auto& keys = answer.messages[0].keys;
    REQUIRE(keys.size() == 128);
    CHECK(keys[65].word == no_change);
    CHECK(keys[66].word == *FrequencyWord::nearest(pitch_of_key(62) + interval("5/4")));
    REQUIRE(answer.worst());
    CHECK(absolute(answer.worst()->error()) <= Interval::from_steps(1, 2 * 196'608)); // half a unit
    CHECK(answer.beyond.empty());
}

TEST_CASE("Retuning: keys beyond the words keep their pitch, and are named") {
    const Retuning answer = retune(on_d4(just(), a_key_a_degree(62)), model(MessageKind::key_dump));
    // Seven keys an octave: key 0 would sound nearly nine octaves below D4.
    REQUIRE_FALSE(answer.beyond.empty());
    CHECK(answer.beyond.front() == 0);
    CHECK(answer.messages[0].keys[0].word == no_change);
    CHECK(answer.keys.size() + answer.beyond.size() == 128);
}

TEST_CASE("Retuning: changes are shared out over messages") {
    const Scale scale =
        parse_degrees("1of12,2of12,3of12,4of12,5of12,6of12,7of12,8of12,9of12,10of12,11of12", "");
    const Retuning answer =
        retune(on_d4(scale, a_key_a_degree(62)), model(MessageKind::note_change));
    REQUIRE(answer.messages.size() == 2);
    CHECK(answer.messages[1].keys.front().key == 64);
    CHECK_FALSE(answer.worst()); // 12 equal steps are exact
}

TEST_CASE("Retuning: 12 offsets say a scale on 12 keys an octave") {
    const Retuning answer =
        retune(on_d4(just(), nearest_keys(just(), 62)), model(MessageKind::octave_1));
    // From D: E +3.9, F sharp -13.7, G -2.0, A +2.0, B -15.6, C sharp -11.7 cents.
    CHECK(answer.messages[0].offsets == std::array{0, -12, 0, 0, 4, 0, -14, -2, 0, 2, 0, -16});
    CHECK(answer.worst()->error().cents(3) == "-0.359"); // B, at -15.641
    const Retuning fine =
        retune(on_d4(just(), nearest_keys(just(), 62)), model(MessageKind::octave_2));
    CHECK(absolute(fine.worst()->error()) <= Interval::from_steps(1, 2 * 98'304));
}

TEST_CASE("Retuning: 12 offsets do not say what differs from octave to octave, or lies too far") {
    CHECK(refusal(on_d4(just(), a_key_a_degree(62)), MessageKind::octave_2) == "tuning_not_octave");
    const Scale wide = parse_degrees("170c", "");
    KeyMapping row = parse_mapping("1,2,-,-,-,-,-,-,-,-,-,-", 62);
    CHECK(refusal(on_d4(wide, row), MessageKind::octave_1) == "tuning_offset_range");
    CHECK(refusal(on_d4(wide, row), MessageKind::octave_2) == "no error");
    row.anchor = 60; // two keys lower, two semitones higher
    CHECK(refusal(on_d4(wide, row), MessageKind::octave_2) == "tuning_offset_range");
    row.row.assign(12, std::nullopt);
    CHECK(refusal(on_d4(wide, row), MessageKind::bulk_dump) == "tuning_nothing_to_say");
}

TEST_CASE("Retuning: what is too far for 12 offsets is told the range in the form's own fineness") {
    const auto said = [](MessageKind kind, int anchor) {
        const KeyMapping row = parse_mapping("1,2,-,-,-,-,-,-,-,-,-,-", anchor);
        const auto error =
            support::error_of([&] { retune(on_d4(parse_degrees("170c", ""), row), model(kind)); });
        return std::string(error ? error->what() : "");
    };
    CHECK_THAT(said(MessageKind::octave_1, 62), Catch::Contains("-64") && Catch::Contains(" 63;"));
    CHECK_THAT(said(MessageKind::octave_2, 60),
               Catch::Contains("-100") && Catch::Contains("99.988"));
}
